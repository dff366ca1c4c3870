//go:build !js

// Command dryline-desk is the trainer window: choose an exercise, stand the
// watch, read the debrief.
//
//	dryline-desk [-seed N] [-o FOLDER] [-size WxH] [EXERCISE | FILE.yaml | SESSION.jsonl]
//	dryline-desk -assess KEY [-trainee NAME] [-o FOLDER] [-size WxH] EXERCISE | FILE.yaml
//	dryline-desk FOLDER.under-way
//
// The second stands an exercise as an assessment, sealed to an instructor's public key; the third
// resumes one. See dryline assess --help for what that does not protect against.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime/debug"
	"strings"
	"syscall"

	"dryline/cmd/dryline-desk/app"
	"dryline/scenarios"
	"dryline/sim/exercise"

	"github.com/hajimehoshi/ebiten/v2"
)

func main() {
	if os.Getenv("GOGC") == "" {
		// A watch makes little garbage and holds much: a fifth as much again of it is room
		// enough, and the collector finds little to do.
		debug.SetGCPercent(20)
	}
	os.Exit(run(os.Args[1:], os.Stderr))
}

// run returns the exit status: 2 for bad use, 1 for failure.
func run(args []string, stderr io.Writer) int {
	flags := flag.NewFlagSet("dryline-desk", flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	seed := flags.Uint64("seed", 0, "everything left to chance; 0 takes the exercise's own")
	out := flags.String("o", "out", "folder for sessions and reports")
	var assessed assessment
	flags.StringVar(&assessed.to, "assess", "", "stand the exercise as an assessment, for this instructor's public key or file of one")
	flags.StringVar(&assessed.trainee, "trainee", "", "name of the trainee, in an assessment")
	size := flags.String("size", "1280x720", "size of the window in points")
	inspect := flags.String("inspect", "", "file for what the window shows, for tests")
	metronome := flags.Bool("metronome", false, "time passes by updates of the window instead of the clock, for tests")
	complain := func(format string, a ...any) int {
		fmt.Fprintf(stderr, "dryline-desk: "+format+"\n", a...)
		return 2
	}
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			fmt.Fprintln(stderr, "usage: dryline-desk [-seed N] [-o FOLDER] [-size WxH] [-assess KEY [-trainee NAME]] [EXERCISE | FILE.yaml | SESSION.jsonl | FOLDER.under-way]")
			return 0
		}
		return complain("%v; see dryline-desk -h", err)
	}
	var wide, tall int
	if n, err := fmt.Sscanf(*size, "%dx%d", &wide, &tall); n != 2 || err != nil || wide < app.LeastWide || tall < app.LeastTall || wide > 16384 || tall > 16384 {
		return complain("-size: %q is no size (want WxH, at least %dx%d)", *size, app.LeastWide, app.LeastTall)
	}
	if flags.NArg() > 1 {
		return complain("%d names given (want one at most)", flags.NArg())
	}
	if assessed.to != "" && flags.NArg() == 0 {
		return complain("-assess: name the exercise")
	}
	store := newFolder(*out)
	g := app.NewGame(store, true)
	g.InspectTo = *inspect
	if *metronome {
		g.Clock = app.Metronome()
	}
	g.Seed = *seed
	g.Silent = !hasSound()
	g.Go(app.NewChoose())
	if name := flags.Arg(0); name != "" {
		screen, err := open(g, name, *out, &assessed)
		if err != nil {
			return complain("%v", err)
		}
		g.Go(screen)
	}
	ebiten.SetWindowTitle("Dryline")
	ebiten.SetWindowSize(wide, tall)
	ebiten.SetWindowSizeLimits(app.LeastWide, app.LeastTall, -1, -1)
	ebiten.SetWindowResizingMode(ebiten.WindowResizingModeEnabled)
	ebiten.SetWindowClosingHandled(true)
	stop := make(chan os.Signal, 1)
	signal.Notify(stop, os.Interrupt, syscall.SIGTERM)
	go func() {
		<-stop
		g.Quit()
	}()
	err := runGame(g)
	g.Leave() // whatever ended the window, a watch under way is kept
	if err != nil {
		fmt.Fprintf(stderr, "dryline-desk: %s\n", noDisplay(err))
		return 1
	}
	return 0
}

// open finds what a name on the command line means.
func open(g *app.Game, name, out string, assessed *assessment) (app.Screen, error) {
	if isUnderWay(name) {
		return resumeAssessment(g, name)
	}
	start := app.Start
	if assessed.to != "" {
		start = func(g *app.Game, ex *exercise.Exercise) (app.Screen, error) { return assessed.begin(g, ex, out) }
	}
	if strings.HasSuffix(name, ".jsonl") && assessed.to == "" {
		data, err := readLog(name, out)
		if err != nil {
			return nil, err
		}
		where := ""
		if underWay(name) {
			where = name
		}
		return app.Resume(g, where, data)
	}
	if strings.HasSuffix(name, ".yaml") || strings.HasSuffix(name, ".yml") {
		ex, err := scenarios.Load(name)
		if err != nil {
			return nil, err
		}
		return start(g, ex)
	}
	ex, err := scenarios.Find(name)
	if err != nil {
		return nil, err
	}
	return start(g, ex)
}

// runGame opens the window. The window system may give up in a panic.
func runGame(g *app.Game) (err error) {
	defer func() {
		if fault := recover(); fault != nil {
			err = fmt.Errorf("%v", fault)
		}
	}()
	return ebiten.RunGame(g)
}

// noDisplay says in a sentence what is wrong when there is no screen.
func noDisplay(err error) string {
	text := strings.ReplaceAll(err.Error(), "\n", " ")
	if os.Getenv("DISPLAY") == "" && os.Getenv("WAYLAND_DISPLAY") == "" && isUnix {
		return "there is no display to open a window on (set DISPLAY, or use \"dryline serve\" and a browser)"
	}
	return "the window cannot be opened: " + text
}
