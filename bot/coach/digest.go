package coach

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode/utf16"

	"musette/bot/desk"
	"musette/bot/picture"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/storage"
)

// A text for coaches fits one message: so many units of UTF-16, marks that a
// chat service would mask counted twice, and so many of a line.
const (
	mostDigest     = 3500
	mostDigestLine = 220
	mostButtons    = 5
	ridersFile     = "riders.txt"
)

// section is a part of a text for coaches. Of too many lines the first ones are kept.
type section struct {
	head  string
	first bool // what a coach reads for: other sections give way to it
	lines []say.Line
}

// add puts in lines that name no command.
func (s *section) add(texts ...string) { s.lines = append(s.lines, say.PlainLines(texts...)...) }

// Digest is the coaches' week of a club: first what they have to decide, then what
// needs a look, who tapers and who starts, results, each where there is any. It is one
// screen and names the exceptions; the file riders.txt has everybody and everything.
func Digest(ctx context.Context, b *desk.Base, club storage.Club, now time.Time) (say.Reply, error) {
	squad, news, err := squadOf(ctx, b, &club, now)
	if err != nil {
		return say.Reply{}, err
	}
	sections := []section{decisions(squad), attention(squad, news), tapering(squad), starting(squad), resultsOf(squad), taught(squad)}
	sections[0].first, sections[1].first = true, true
	sections = slices.DeleteFunc(sections, func(s section) bool { return len(s.lines) == 0 })
	reply := say.Reply{Topic: say.TopicCommand, Topics: []string{say.TopicCommand}, Private: true, Lines: []say.Line{clubLine(&club, squad)}}
	if len(sections) == 0 {
		return reply, nil
	}
	var last say.Line
	if len(squad) > 0 {
		reply.Files = []say.File{riderList(&club, squad)}
		reply.Buttons = riderButtons(squad)
		last = say.Linef("%sEverybody: %s. One rider: /coach athlete %s", quiet(squad), ridersFile, say.Quote(squad[0].Name))
	}
	reply.Lines = screen(reply.Lines[0], sections, last)
	if card := squadCard(&club, squad); len(card.Rows) > 0 {
		b.Attach(ctx, &reply, "club.png", func() (picture.Picture, error) { return picture.DrawSquad(card) })
	}
	return reply, nil
}

// quiet names the riders whom no other line mentions.
func quiet(squad []standing) string {
	var names []string
	for i := range squad {
		if s := &squad[i]; s.taper == nil && len(s.starts)+len(s.Needs)+len(s.Choices)+len(s.results)+len(s.untold) == 0 {
			names = append(names, s.Name)
		}
	}
	switch {
	case len(names) == 0:
		return ""
	case len(names) > mostQuiet:
		return fmt.Sprintf("%d other riders have no taper, no race within a week and nothing new. ", len(names))
	}
	has := "have"
	if len(names) == 1 {
		has = "has"
	}
	return fmt.Sprintf("%s %s no taper, no race within a week and nothing new. ", say.AndList(names), has)
}

const mostQuiet = 4 // names

// clubLine is the answer of digest and roster: how many riders there are, taper and race.
func clubLine(club *storage.Club, squad []standing) say.Line {
	tapers, starts, needs, choices := 0, 0, 0, 0
	for i := range squad {
		s := &squad[i]
		tapers += one(s.taper != nil)
		starts += one(len(s.starts) > 0)
		needs += one(len(s.Needs) > 0)
		choices += len(s.Choices)
	}
	parts := []string{show.Count(len(squad), "rider")}
	for _, p := range []struct {
		n          int
		one, other string
	}{{tapers, "is tapering now", "are tapering now"}, {starts, "has a race within a week", "have a race within a week"},
		{needs, "needs attention", "need attention"}, {choices, "decision waits", "decisions wait"}} {
		switch {
		case p.n == 1:
			parts = append(parts, "1 "+p.one)
		case p.n > 1:
			parts = append(parts, fmt.Sprintf("%d %s", p.n, p.other))
		}
	}
	if len(parts) == 1 {
		parts = append(parts, "nobody tapers, nobody races within a week, nobody needs attention")
	}
	return say.Linef("%s: %s.", show.CutTo(club.Name, show.MostName), strings.Join(parts, ", "))
}

func one(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

func tapering(squad []standing) section {
	out := section{head: "Tapering"}
	for i := range squad {
		if squad[i].taper != nil {
			out.add(squad[i].Line())
		}
	}
	return out
}

// starting has a line for each race of the coming week with all who start.
func starting(squad []standing) section {
	type start struct {
		race   planner.Race
		today  planner.Date
		riders []string
	}
	var starts []start
	for i := range squad {
		for _, r := range squad[i].starts {
			at := slices.IndexFunc(starts, func(s start) bool { return s.race.Date == r.Date && show.SameName(s.race.Name, r.Name) })
			if at < 0 {
				at, starts = len(starts), append(starts, start{race: r, today: squad[i].Today})
			}
			starts[at].riders = append(starts[at].riders, squad[i].Name+" ("+r.Priority.String()+")")
		}
	}
	slices.SortStableFunc(starts, func(a, b start) int { return int(a.race.Date - b.race.Date) })
	out := section{head: "Racing within a week"}
	for _, s := range starts {
		head := fmt.Sprintf("%s, %s: ", show.RaceName(&s.race), show.Dated(s.race.Date, s.today))
		out.add(head + named(s.riders, mostDigestLine-units(head)))
	}
	return out
}

// named is a list of names in so many units, and how many more there are.
func named(names []string, room int) string {
	const more = len(" and 1000 more")
	text := ""
	for i, n := range names {
		next := text
		if i > 0 {
			next += ", "
		}
		if next += n; i > 0 && units(next) > room-more {
			return fmt.Sprintf("%s and %d more", text, len(names)-i)
		}
		text = next
	}
	return text
}

// about are texts about riders, by their name.
type about struct{ name, text string }

// together has a line for each text with all riders whom it is about, in the order of the first.
func together(all []about) []string {
	names := map[string][]string{}
	var texts []string
	for _, a := range all {
		if len(names[a.text]) == 0 {
			texts = append(texts, a.text)
		}
		names[a.text] = append(names[a.text], a.name)
	}
	for i, text := range texts {
		texts[i] = named(names[text], mostDigestLine-units(": "+text)) + ": " + text
	}
	return texts
}

// attention has those who need a look. What of their races needs one waits for a
// decision and is said there.
func attention(squad []standing, news *clubNews) section {
	out := section{head: "Needs attention"}
	if news.digest != "" {
		out.add("The last digest could not be sent: " + news.digest)
	}
	var all []about
	for i := range squad {
		if s := &squad[i]; len(s.Needs) > 0 {
			all = append(all, about{s.Name, strings.Join(s.Needs, ", ")})
		}
	}
	out.add(together(all)...)
	return out
}

func resultsOf(squad []standing) section {
	out := section{head: "Results of the last 7 days"}
	var untold []string
	for i := range squad {
		s := &squad[i]
		for _, r := range s.results {
			out.add(s.Name + ": " + r)
		}
		for _, r := range s.untold {
			untold = append(untold, s.Name+" ("+r+")")
		}
	}
	if len(untold) > 0 {
		head := "No result yet: "
		out.add(head + named(untold, mostDigestLine-units(head)))
	}
	return out
}

func decisions(squad []standing) section {
	var all []about
	for i := range squad {
		for _, c := range squad[i].Choices {
			all = append(all, about{squad[i].Name, c})
		}
	}
	return section{head: "Decisions waiting", lines: say.PlainLines(together(all)...)}
}

// riderButtons lead to the first riders who need a decision.
func riderButtons(squad []standing) []say.Button {
	var out []say.Button
	for i := range squad {
		if s := &squad[i]; len(s.Choices) > 0 && len(out) < mostButtons {
			out = append(out, say.Button{Label: "Show " + s.Name, Command: "coach athlete", Options: map[string]string{"athlete": s.Name}})
		}
	}
	return out
}

// riderList is everybody with all that a digest could say of them.
func riderList(club *storage.Club, squad []standing) say.File {
	var p say.Page
	p.Add(clubLine(club, squad))
	p.Gap()
	for i := range squad {
		s := &squad[i]
		p.Addf("%s", s.Line())
		for _, list := range []struct {
			head  string
			lines []string
		}{{"needs attention: ", s.Needs}, {"races: ", s.Clashes}, {"to decide: ", s.Choices}, {"result: ", s.results}, {"no result yet: ", s.untold}} {
			for _, l := range list.lines {
				p.Addf("  %s%s", list.head, l)
			}
		}
	}
	return say.File{Name: ridersFile, Type: "text/plain; charset=utf-8", Data: []byte(say.TextOf(p.Done()) + "\n")}
}

// fitted is a text of sections within a message, each with at most so many
// lines; what is left out is counted. whole tells that nothing is.
func fitted(first say.Line, sections []section, last say.Line, most int) (lines []say.Line, whole bool) {
	for ; ; most-- {
		var p say.Page
		p.Add(first)
		whole = true
		for _, s := range sections {
			p.Gap()
			p.Headingf("%s", s.head)
			for i, l := range s.lines {
				if i == most && len(s.lines) > most {
					p.Addf("  and %d more", len(s.lines)-most)
					whole = false
					break
				}
				if text := l.Words(); show.CutTo(text, mostDigestLine) != text {
					l = say.Linef("%s", show.CutTo(text, mostDigestLine))
				}
				p.Addf("  %s", l)
			}
		}
		if len(last.Spans) > 0 {
			p.Gap()
			p.Add(last)
		}
		if lines = p.Done(); units(say.TextOf(lines)) <= mostDigest || most == 1 {
			return lines, whole
		}
	}
}

// mostScreen is how many lines a digest has.
const mostScreen = 25

// screen is a text of sections in one screen. What there is no room for is left out
// from the end: lines of long sections, then whole sections, last of all lines of
// the first ones.
func screen(first say.Line, sections []section, last say.Line) []say.Line {
	const least, leastFirst = 2, 6 // lines of a section
	limits := make([]int, len(sections))
	for i, s := range sections {
		limits[i] = len(s.lines)
	}
	shrink := func(room map[bool]int) bool {
		for i := len(limits) - 1; i >= 0; i-- {
			if limits[i] > room[sections[i].first] {
				limits[i]--
				return true
			}
		}
		return false
	}
	for {
		lines := laid(first, sections, limits, last)
		end := len(limits) - 1
		switch {
		case len(lines) <= mostScreen && units(say.TextOf(lines)) <= mostDigest:
			return lines
		case shrink(map[bool]int{true: leastFirst, false: least}):
		case end > 0 && !sections[end].first:
			limits = limits[:end]
		case !shrink(map[bool]int{true: 1, false: 1}):
			return lines
		}
	}
}

// laid lays out the sections that have a limit of lines, each up to it.
func laid(first say.Line, sections []section, limits []int, last say.Line) []say.Line {
	var p say.Page
	p.Add(first)
	for i, limit := range limits {
		s := &sections[i]
		p.Gap()
		p.Headingf("%s", s.head)
		shown := s.lines
		if limit < len(shown) {
			shown = shown[:max(1, limit-1)]
		}
		for _, l := range shown {
			if text := l.Words(); show.CutTo(text, mostDigestLine) != text {
				l = say.Linef("%s", show.CutTo(text, mostDigestLine))
			}
			p.Addf("  %s", l)
		}
		if n := len(s.lines) - len(shown); n > 0 {
			p.Addf("  and %d more", n)
		}
	}
	if len(limits) < len(sections) {
		var left []string
		for _, s := range sections[len(limits):] {
			left = append(left, strings.ToLower(s.head))
		}
		p.Addf("The file also has: %s.", say.AndList(left))
	}
	if len(last.Spans) > 0 {
		p.Gap()
		p.Add(last)
	}
	return p.Done()
}

// units is how much room a text takes in a message.
func units(s string) int {
	n := 0
	for _, r := range s {
		n += utf16.RuneLen(r)
		if strings.ContainsRune("*_~`|\\<>[]()#-+:@", r) {
			n++
		}
	}
	return n
}
