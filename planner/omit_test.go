package planner_test

import (
	"reflect"
	"testing"

	"musette/planner"
)

// Every kind of fact that has dates is left out, one at a time, and what was
// taken back on the day is there again.
func TestOmitting(t *testing.T) {
	const day = planner.Date(20600)
	var f planner.Facts
	v := reflect.ValueOf(&f).Elem()
	kinds := 0
	for i := range v.NumField() {
		list := v.Field(i)
		if list.Kind() != reflect.Slice || v.Type().Field(i).Name == "OldTaper" {
			continue
		}
		if _, dated := list.Type().Elem().FieldByName("Told"); !dated {
			continue
		}
		kinds++
		for _, told := range []planner.Told{{On: day}, {On: day - 3, Withdrawn: day}, {On: day - 1}, {On: day + 1}} {
			one := reflect.New(list.Type().Elem()).Elem()
			one.FieldByName("Told").Set(reflect.ValueOf(told))
			list.Set(reflect.Append(list, one))
		}
	}
	f.Taper, f.OldTaper = planner.Taper{Days: 7, Told: planner.Told{On: day}}, []planner.Taper{{Days: 10, Told: planner.Told{Withdrawn: day}}}
	if kinds < 9 {
		t.Fatalf("only %d kinds of facts have dates", kinds)
	}
	less := f.Omitting(day)
	if len(less) != 2*kinds+1 {
		t.Fatalf("%d copies, want %d", len(less), 2*kinds+1)
	}
	if got := less[0].Taper; got.Days != 10 || !got.KnownOn(day) {
		t.Errorf("taper settings as before: %+v", got)
	}
	for n, g := range less[1:] {
		changed := 0
		w := reflect.ValueOf(g).Elem()
		for i := range v.NumField() {
			a, b := v.Field(i), w.Field(i)
			if reflect.DeepEqual(a.Interface(), b.Interface()) {
				continue
			}
			changed++
			if n%2 == 0 && b.Len() != 3 || n%2 == 1 && (b.Len() != 4 || b.Index(1).FieldByName("Withdrawn").Int() != 0) {
				t.Errorf("copy %d: %+v", n, b)
			}
		}
		if changed != 1 {
			t.Errorf("copy %d: %d lists are other ones", n, changed)
		}
	}
	if got := f.Omitting(day + 7); len(got) != 0 {
		t.Errorf("%d copies for a day without news", len(got))
	}
}
