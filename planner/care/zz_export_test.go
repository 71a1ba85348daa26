package care

func LikelyOf(text string) float64 {
	t := cut(text, 0)
	t.hide(&known().figures)
	d, _ := t.likely()
	return d
}

func LikelyOf2(text string) (float64, bool) {
	t := cut(text, 0)
	t.hide(&known().figures)
	t.judge(&known().meanings, false)
	d, _ := t.likely()
	return d, t.otherwise
}
