package model

// Labels of the lines of the work after the casting that a window shows apart from
// the others.
const (
	LineFinishedSize = "Finished size"       // of FinishPlan.Trim
	LineOnResin      = "On the resin"        // of FinishPlan.Coat
	LineShortest     = "Shortest that works" // this and those below of a MountPlan
	LineSuits        = "Suits better"
	LineThread       = "Thread that holds"
	LineUnderHead    = "Left under the head"
)
