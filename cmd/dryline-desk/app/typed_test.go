package app

import (
	"math"
	"strings"
	"testing"

	"dryline/sim/order"

	"github.com/hajimehoshi/ebiten/v2"
)

// What is typed is ordered in the unit of its order, what is not typed over is not ordered, and what will not do
// is said in the unit it was typed in and nothing is ordered.
func TestOrdersThatAreTyped(t *testing.T) {
	g := NewGame(&memory{}, false)
	g.Resize(1280, 720, 1)
	w := watchUnderWay(t, g, "disused-anchorage", 5)
	w.give(order.Command{Do: order.LogOff})
	g.next = w
	dst := ebiten.NewImage(1280, 720)
	defer dst.Deallocate()
	frame(g, dst)
	typed := func(texts map[order.Do]string) {
		w.typed.show(g, w.Watch, order.Cable)
		frame(g, dst)
		if f := w.typed.figures[2]; f.do != order.Cable || !f.in.IsFocused() {
			t.Fatalf("the keys are not at %q", f.label)
		}
		for _, f := range w.typed.figures {
			if text, ok := texts[f.do]; ok {
				f.in.SetText(text)
			}
		}
		w.typed.give(g, w.Watch)
		w.crew.Pass(0.2, 1e12)
		w.view = w.crew.View()
		frame(g, dst)
	}
	steering := w.view.Bridge.Steering
	typed(map[order.Do]string{order.Speed: "3,5", order.Cable: "21.5", order.Range: "100"})
	b := &w.view.Bridge
	if math.Abs(b.Speed-3.5*1852.0/3600) > 1e-9 || b.CableOrdered != 21.5 || w.view.Recorder.RangeScale != 100 || b.Steering != steering || w.typed.open {
		t.Errorf("3,5 kn, 21.5 m and 100 m typed: %.4f m/s, %g m, %g m, steering %v, open %v", b.Speed, b.CableOrdered, w.view.Recorder.RangeScale, b.Steering, w.typed.open)
	}
	typed(map[order.Do]string{order.SteerHeading: "270", order.Gain: "-6"})
	if b = &w.view.Bridge; b.Steering.Do != order.SteerHeading || math.Abs(b.Steering.Value-3*math.Pi/2) > 1e-9 || w.view.Recorder.Receivers[0].Gain != -6 {
		t.Errorf("270 and -6 dB typed: %+v, %+v", b.Steering, w.view.Recorder.Receivers)
	}
	carried := w.view.Carried
	for _, row := range []struct {
		do          order.Do
		text, wants string
	}{
		{order.Speed, "99", "want 0 to"}, {order.Cable, "x", "is no number"}, {order.Cable, "1e9", "Cable out"},
		{order.SteerHeading, "400", "0 to 360"}, {order.Range, "NaN", "is no number"}, {order.TVGLoss, "-1", "TVG, dB/km"}, {order.Speed, "", "is no number"},
	} {
		typed(map[order.Do]string{row.do: row.text, order.TVG: "12"})
		if !w.typed.open || w.view.Carried != carried || !strings.Contains(g.Notice, row.wants) {
			t.Errorf("%s %q typed: open %v, %d orders more, says %q, want it to say %q", row.do, row.text, w.typed.open, w.view.Carried-carried, g.Notice, row.wants)
		}
		w.typed.hide(g)
		frame(g, dst)
	}
}
