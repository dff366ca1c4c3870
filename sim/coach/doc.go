// Package coach gives plain-language hints while an exercise runs: what is
// wrong, why, and what to do, with figures.
//
// It judges from observations alone, as a mate looking over the trainee's
// shoulder would: instrument readings, the desk's fix and records, what the
// bridge shows, and what the exercise asks for. For advice on speed and cable it
// uses the steady tow of the exercise's own gear ([tow.Spec.Steady]) as the tow
// table on board. The truth never reaches it.
//
// Units are metres, seconds, radians and m/s; people read knots. A hint comes
// when its cause has stood for a little while and goes when the cause is well
// over, and its figures change only now and then: hints do not flicker.
package coach
