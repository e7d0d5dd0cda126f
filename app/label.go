package app

import "meniscus/model"

// Label names a field in words, for the steps of undo; see model.Label.
func Label(p *model.Project, field string) string { return model.Label(p, field) }
