// Package report has what the surveyor's desk draws up: what was covered, the line log,
// the contact report and the survey report. It is made from the brief and the desk,
// which is what a trainee may know; nothing of it claims more than they saw.
package report
