package remake

import "runtime"

// inTurn makes n things, on as many cores as there are, and has each taken in turn, on the
// caller's goroutine: what comes of it does not hang on the cores. No more are made and not
// taken than there are cores. After an error nothing more is taken.
func inTurn[T any](n int, work func(i int) (T, error), take func(i int, made T)) error {
	type outcome struct {
		made T
		err  error
	}
	made := make([]chan outcome, n)
	for i := range made {
		made[i] = make(chan outcome, 1)
	}
	begun := 0
	begin := func() {
		if i := begun; i < n {
			begun++
			go func() {
				t, err := work(i)
				made[i] <- outcome{t, err}
			}()
		}
	}
	for range runtime.GOMAXPROCS(0) {
		begin()
	}
	var failed error
	for i := range n {
		if i >= begun {
			break // an error left it out
		}
		o := <-made[i]
		if failed == nil {
			if failed = o.err; failed == nil {
				take(i, o.made)
				begin()
			}
		}
	}
	return failed
}
