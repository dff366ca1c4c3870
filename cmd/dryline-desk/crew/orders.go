package crew

import "dryline/sim/order"

// SetBook has every order from now on written down in a book first.
func (c *Crew) SetBook(b Book) {
	c.mu.Lock()
	c.book = b
	c.mu.Unlock()
}

// Give passes orders on. Each is carried out as soon as it is written down,
// between two ticks, so that the next view shows it and the next order can build
// on it, even when time stands still. The session waits at the tick an order was
// written down for. While a session is being brought back there are no orders.
func (c *Crew) Give(orders ...order.Command) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.looking {
		c.complain("a session that is looked at again takes no orders")
	} else if c.behind() {
		c.complain("the session is still going back to where it was left")
	} else {
		c.orders = append(c.orders, orders...)
		c.obey(false)
	}
	c.show()
}

// Written tells the crew that the order it waits for is written down.
func (c *Crew) Written() {
	c.mu.Lock()
	defer c.mu.Unlock()
	if !c.awaiting {
		return
	}
	c.carryOut()
	c.obey(false)
	c.show()
}

// Hurry has all that was ordered written down and carried out without waiting to
// hear that it is down: nobody may be there to hear it.
func (c *Crew) Hurry() {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.awaiting {
		c.carryOut()
	}
	c.obey(true)
	c.show()
}

// obey has what was ordered written down and carried out, as far as it goes
// without waiting, or all of it in haste. What would be refused is not written
// down.
func (c *Crew) obey(haste bool) {
	for len(c.orders) > 0 && !c.awaiting {
		o := &c.orders[0]
		o.Tick = c.session.Ticks()
		if err := c.session.Refusal(*o); err != nil {
			c.complain(plain(err, o.Do))
			c.orders = c.orders[1:]
			continue
		}
		if c.book != nil && !c.book.Order(o.Tick, c.ordered(*o)) && !haste {
			c.awaiting = true
			return
		}
		c.carryOut()
	}
}

// carryOut carries out the first order.
func (c *Crew) carryOut() {
	o := c.orders[0]
	c.orders, c.awaiting = c.orders[1:], false
	if err := c.give(o); err != nil {
		c.complain(plain(err, o.Do))
	}
	if o.Do == order.LogOff || o.Do == order.Finish {
		c.session.Advance(0) // the line is on the desk at once, even when time stands still
	}
}

func (c *Crew) complain(says string) {
	c.complaint = says
	c.complaints++
}
