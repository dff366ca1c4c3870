package report

import (
	"encoding/csv"
	"io"
	"strconv"
)

// WriteBottom writes the bottom track of a survey that was worked up again, a row a
// ping: the height it was laid with, where that comes from, how well the record bears it
// out, and the height of the watch.
func WriteBottom(w io.Writer, in *Input) error {
	c := csv.NewWriter(w)
	c.Write([]string{"run", "line", "ping", "utc", "fish_height_m", "by", "quality", "found", "fish_height_in_watch_m"})
	worked := in.Desk.Worked
	for i := 0; worked != nil && i < len(worked.Lines); i++ {
		l := worked.Lines[i]
		for k := range l.Pings {
			p, note := &l.Pings[k], &l.Bottom[k]
			c.Write([]string{
				strconv.Itoa(i + 1), l.Name, strconv.FormatUint(p.Number, 10), in.utc(p.Fix.Time).Format(stamp), number(p.Height, 3),
				string(note.By), number(note.Quality, 2), strconv.FormatBool(p.Locked), number(in.Desk.Lines[i].Pings[k].Height, 3),
			})
		}
	}
	c.Flush()
	return c.Error()
}
