package main

import (
	"errors"
	"fmt"
	"io"
	"net"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
)

// bauds are the speeds a serial port may have.
var bauds = []int{4800, 9600, 19200, 38400, 57600, 115200}

// check completes the addresses, and finds faults of the command line.
func (o *streaming) check(c *cobra.Command) error {
	given := c.Flags().Changed
	if !given("udp") && !given("tcp") && !given("serial") {
		o.udp = nmeaPort
	}
	var err error
	if given("udp") || o.udp != "" {
		if o.udp, err = address(o.udp, 1); err != nil {
			return usagef("--udp: %w", err)
		}
	}
	if given("tcp") {
		if o.tcp, err = address(o.tcp, 0); err != nil {
			return usagef("--tcp: %w", err)
		}
	}
	switch {
	case given("serial") && o.serial == "":
		return usagef("--serial: want the name of a serial port")
	case given("baud") && o.serial == "":
		return usagef("--baud is for --serial")
	case !slices.Contains(bauds, o.baud):
		return usagef("--baud: want one of %v, not %d", bauds, o.baud)
	}
	return nil
}

// address reads [host:]port; without a host it is this computer's own.
func address(text string, lowest int) (string, error) {
	if !strings.Contains(text, ":") {
		text = ":" + text
	}
	host, port, err := net.SplitHostPort(text)
	if err != nil {
		return "", fmt.Errorf("want [host:]port, not %q", text)
	}
	n, err := strconv.Atoi(port)
	if err != nil || n < lowest || n > 65535 {
		return "", fmt.Errorf("want a port from %d to 65535, not %q", lowest, port)
	}
	if host == "" {
		host = "127.0.0.1"
	}
	return net.JoinHostPort(host, strconv.Itoa(n)), nil
}

// open opens what was asked for. With an error it returns those it has opened.
func (o *streaming) open(stderr io.Writer) (outlets []outlet, err error) {
	for _, way := range []struct {
		to   string
		open func() (outlet, error)
		net  bool
	}{
		{o.udp, func() (outlet, error) { return openUDP(o.udp, stderr) }, true},
		{o.tcp, func() (outlet, error) { return openTCP(o.tcp) }, true},
		{o.serial, func() (outlet, error) { return openSerial(o.serial, o.baud, stderr) }, false},
	} {
		if way.to == "" {
			continue
		}
		out, err := way.open()
		if err != nil {
			return outlets, err
		}
		outlets = append(outlets, out)
		if way.net && !loopback(way.to) {
			warn(stderr, way.to+" is beyond this computer: see that nobody there navigates by simulated data")
		}
	}
	if len(outlets) == 0 {
		return nil, errors.New("nowhere to send to")
	}
	return outlets, nil
}

// loopback reports whether an address is this computer's own.
func loopback(address string) bool {
	host, _, err := net.SplitHostPort(address)
	if err != nil {
		return false
	}
	if ip := net.ParseIP(host); ip != nil {
		return ip.IsLoopback()
	}
	return host == "localhost"
}
