package main

import (
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"dryline/sim/exercise"
	"dryline/sim/order"
)

func newDeskCommand() *cobra.Command {
	var (
		f      flying
		orders string
	)
	c := &cobra.Command{
		Use:   "desk SESSION.jsonl",
		Short: "Work a finished session up again and report on it",
		Long: `Work a finished session up again: the desk's work after the last line is
closed. The session is flown again from its log, the orders of a file are given
to the desk, and the folder written holds, beside what replay gives, the mosaic
as it was remade, the contact report, the line log and the survey report. The
mosaic of the watch stays as it was.

The file has an order a line, such as

  {"do":"rework_factor","value":0.96}
  {"do":"bottom_at","ping":1200,"ping2":1260,"value":6.4}
  {"do":"rework"}
  {"do":"rate_contact","number":3,"value":0.8}
  {"do":"contact_action","number":4,"text":"dismiss","reason":"fish"}
  {"do":"remark","text":"line B run again at slack water"}
  {"do":"draw_up","text":"first day"}

Only work of the desk is taken: nothing sails any more. Reports are drawn up
whether or not they are asked for. The log in the folder carries the orders, so
replay gives the same folder to the byte.`,
		Args: exactlyOne("session log"),
		RunE: func(c *cobra.Command, args []string) error {
			what, err := openLog(c.ErrOrStderr(), args[0])
			if err != nil {
				return err
			}
			if orders != "" {
				if what.Desk, err = readDeskOrders(orders, what.Session.Brief); err != nil {
					return err
				}
			}
			drawsUp := func(c order.Command) bool { return c.Do == order.DrawUp }
			if !slices.ContainsFunc(what.Desk, drawsUp) && !slices.ContainsFunc(what.Log.Commands, drawsUp) {
				what.Desk = append(what.Desk, order.Command{Do: order.DrawUp})
			}
			if err := f.fly(c, *what); err != nil {
				return fmt.Errorf("%s: %w", args[0], err)
			}
			return nil
		},
	}
	f.flags(c)
	c.Flags().StringVar(&orders, "orders", "", "file of orders to the desk, JSON Lines")
	return c
}

// readDeskOrders reads a file of orders that may be given when the watch is over.
func readDeskOrders(name string, b *exercise.Brief) ([]order.Command, error) {
	orders, err := readOrders(name, b)
	if err != nil {
		return nil, err
	}
	var faults order.Faults
	for i := range orders {
		if !orders[i].Later() {
			faults = append(faults, fmt.Sprintf("%s: order %d, %s: the watch is over; the desk takes none of these", name, i+1, orders[i].Do))
		}
	}
	if len(faults) > 0 {
		return nil, usageError{faults}
	}
	return orders, nil
}
