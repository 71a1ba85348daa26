package races

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/typed"
	"musette/storage"
)

// Options that are a part of a result each.
var resultParts = []string{"feeling", "result", "note", "outcome", "compared"}

// raceResult keeps how a race went; what is not told now stays as it was entered.
func raceResult(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	given := slices.DeleteFunc(slices.Clone(resultParts), func(part string) bool { return !req.Has(part) })
	if len(given) == 0 {
		return say.Reply{}, say.Refuse("feeling", "is missing, and so is the rest. Say how your legs were, the result or the outcome, for example feeling:8 or outcome:gave-up")
	}
	told, err := readResult(&req)
	if err != nil {
		return say.Reply{}, err
	}
	races, err := b.DB.Races(ctx, req.Rider.Athlete.ID)
	if err != nil {
		return say.Reply{}, err
	}
	race, err := findOver(races, req.Get("race"), req.Rider.Today)
	if err != nil {
		return say.Reply{}, err
	}
	if over := desk.Begun(races, req.Rider.Today); !desk.SureEnough(over, race, req.Get("race"), req.Rider.Today) {
		return desk.AskRace(req, race)
	}
	if len(given) == 1 && strings.EqualFold(req.Get("feeling"), say.None) {
		return noResult(ctx, b, req, &race)
	}
	if err := gaveUpOn(&told, &race, &req); err != nil {
		return say.Reply{}, err
	}
	var was, is storage.Result
	e, err := b.Change(ctx, req, func(tx *storage.DB) (err error) {
		was, is, err = tx.UpdateResult(ctx, req.Rider.Athlete.ID, req.Rider.Today, race.ID, func(r *storage.Result) error {
			layResult(r, &told, &req)
			return nil
		})
		return err
	})
	if err != nil {
		return say.Reply{}, err
	}
	return toldResult(&req, e, &race, &was, &is), nil
}

// readResult reads the parts that were given.
func readResult(req *desk.Request) (r storage.Result, err error) {
	r.Place, r.Note = unlessNone(req.Get("result")), unlessNone(req.Get("note"))
	var wrongFeeling, wrongDay error
	if req.Has("feeling") && !strings.EqualFold(req.Get("feeling"), say.None) {
		r.Feeling, wrongFeeling = desk.WholeNumber(req.Get("feeling"), 1, 10, "8")
	}
	for _, s := range []planner.RaceStatus{planner.Finished, planner.GaveUp, planner.NotStarted} {
		if s.String() == req.Get("outcome") {
			r.Outcome = s
		}
	}
	for _, c := range []planner.Compared{planner.ComparedWorse, planner.ComparedSame, planner.ComparedBetter} {
		if c.String() == req.Get("compared") {
			r.Compared = c
		}
	}
	if req.Has("day") {
		r.Ended, wrongDay = req.PastDay("day")
	}
	if err := say.Together(say.InField("feeling", wrongFeeling), wrongDay); err != nil {
		return r, err
	}
	if r.Outcome == planner.NotStarted && r.Feeling > 0 {
		return r, say.Refuse("feeling", "does not go with outcome:not-started. Say how your legs were in races that you rode")
	}
	return r, nil
}

// gaveUpOn checks the day on which a race was given up, the last one that it can be where none was entered.
func gaveUpOn(r *storage.Result, race *storage.Race, req *desk.Request) error {
	if r.Outcome != planner.GaveUp {
		if req.Has("day") {
			return say.Refuse("day", "goes with outcome:gave-up alone. Leave it out, or write outcome:gave-up")
		}
		return nil
	}
	if !req.Has("day") {
		r.Ended = min(req.Rider.Today, race.Last())
	}
	if r.Ended < race.Date || r.Ended > race.Last() {
		return say.Refuse("day", "%s is no day of %s, which is from %s to %s. For example %s", r.Ended.Long(), race.Name, race.Date.Short(), race.Last().Short(), race.Date)
	}
	return nil
}

// layResult lays the parts that were given over a result.
func layResult(r, told *storage.Result, req *desk.Request) {
	for part, lay := range map[string]func(){
		"feeling":  func() { r.Feeling = told.Feeling },
		"result":   func() { r.Place = told.Place },
		"note":     func() { r.Note = told.Note },
		"compared": func() { r.Compared = told.Compared },
		"outcome":  func() { r.Outcome, r.Ended = told.Outcome, told.Ended },
	} {
		if req.Has(part) {
			lay()
		}
	}
}

// toldResult answers what was kept, who reads it, and what it changes.
func toldResult(req *desk.Request, e *desk.Effect, race *storage.Race, was, is *storage.Result) say.Reply {
	var p say.Page
	if hasResult(is) {
		p.Addf("Noted: %s on %s, %s.", race.Name, show.Dated(race.Date, req.Rider.Today), resultWords(race, is))
	} else {
		p.Addf("Noted: I have no result of %s on %s any more.", race.Name, show.Dated(race.Date, req.Rider.Today))
	}
	if is.Note != "" {
		p.Addf("Your note: %s", is.Note)
	}
	label, values := "Undo", resultOptions(race, was)
	switch {
	case *was == *is:
		label, values = say.TakeBack, resultOptions(race, nil)
	case hasResult(was):
		p.Addf("It replaces what you logged before: %s.", resultWords(race, was))
	}
	switch {
	case !req.Has("result") && !req.Has("note"):
	case is.Place != "" && show.AboutHealth(is.Place, race.Name):
		p.Addf("Your coaches do not see this result, since it speaks of your health. Your notes are yours alone too.")
	default:
		p.Addf("Your coaches see legs, result and outcome. Your note is yours alone.")
	}
	if was.Outcome != is.Outcome || was.Ended != is.Ended {
		p.Add(e.OtherRaces(&race.Race)...)
		if desk.Planned(e.Facts) {
			p.Add(e.News()...)
		}
	} else {
		newlyTaught(&p, e, race)
	}
	return resultReply(&p, e, race, label, values)
}

// newlyTaught says which races to come have another length, since the rider's races
// have taught something else now.
func newlyTaught(p *say.Page, e *desk.Effect, race *storage.Race) {
	if slices.Equal(e.Old.Taught, e.Facts.Taught) {
		return
	}
	if lines := e.OtherRaces(&race.Race); len(lines) > 0 {
		p.Addf("Your races have taught something about your tapers. Why, and the way back: /taper history")
		p.Add(lines...)
	}
}

// noResult forgets how a race went.
func noResult(ctx context.Context, b *desk.Base, req desk.Request, race *storage.Race) (say.Reply, error) {
	var was storage.Result
	nothing := say.Refuse("feeling", "you have not said how %s went, so there is nothing to forget. For example feeling:8", race.Name)
	e, err := b.Change(ctx, req, func(tx *storage.DB) (err error) {
		was, _, err = tx.UpdateResult(ctx, req.Rider.Athlete.ID, req.Rider.Today, race.ID, func(r *storage.Result) error {
			if !hasResult(r) {
				return nothing
			}
			*r = storage.Result{Race: r.Race, Added: r.Added}
			return nil
		})
		return err
	})
	if err != nil {
		return say.Reply{}, err
	}
	var p say.Page
	p.Addf("Forgotten: %s on %s, %s.", race.Name, show.Dated(race.Date, req.Rider.Today), resultWords(race, &was))
	newlyTaught(&p, e, race)
	return resultReply(&p, e, race, "Undo", resultOptions(race, &was)), nil
}

// hasResult reports that anything was entered about a race.
func hasResult(r *storage.Result) bool {
	return *r != storage.Result{Race: r.Race, Added: r.Added}
}

// resultReply offers the way back and, while the race still shapes days, these.
func resultReply(p *say.Page, e *desk.Effect, race *storage.Race, label string, values map[string]string) say.Reply {
	role := show.RoleOf(e.After, e.Facts, &race.Race)
	known := slices.ContainsFunc(e.Facts.Races, func(r planner.Race) bool { return r.ID == race.Race.ID })
	if desk.Planned(e.Facts) && known && role.Race != nil && len(show.RaceDays(e.After, role, role.Race)) > 0 {
		p.Addf("The days after it: %s", show.RaceLink(e.Facts, &race.Race))
	}
	reply := say.Reply{Date: race.Date, Race: race.Name}
	reply.Offer(p, label, "race result", values)
	show.Refer(&reply, &race.Race)
	reply.Lines = p.Done()
	return reply
}

// resultWords is a result in short: legs 8 of 10, 12th, better than expected.
func resultWords(race *storage.Race, r *storage.Result) string {
	var parts []string
	if r.Feeling > 0 {
		parts = append(parts, fmt.Sprintf("legs %d of 10", r.Feeling))
	}
	if r.Place != "" {
		parts = append(parts, r.Place)
	}
	switch {
	case r.Outcome == planner.GaveUp && race.Days > 1:
		parts = append(parts, fmt.Sprintf("gave up on day %d of %d", race.Date.DaysUntil(r.Ended)+1, race.Days))
	case r.Outcome != planner.Planned:
		parts = append(parts, show.OutcomeWords(r.Outcome))
	}
	if word := show.ComparedWords(r.Compared); word != "" {
		parts = append(parts, word)
	}
	if len(parts) == 0 {
		return "no result"
	}
	return strings.Join(parts, ", ")
}

// resultOptions tell a result again, each part; nil is none.
func resultOptions(race *storage.Race, r *storage.Result) map[string]string {
	values := map[string]string{"race": race.Key(), "feeling": say.None}
	if r == nil || !hasResult(r) {
		return values
	}
	for part, value := range map[string]string{"result": r.Place, "note": r.Note, "compared": r.Compared.String()} {
		if values[part] = value; value == "" {
			values[part] = say.None
		}
	}
	if r.Feeling > 0 {
		values["feeling"] = fmt.Sprint(r.Feeling)
	}
	switch r.Outcome {
	case planner.Finished, planner.NotStarted:
		values["outcome"] = r.Outcome.String()
	case planner.GaveUp:
		values["outcome"], values["day"] = r.Outcome.String(), r.Ended.String()
	default:
		values["outcome"] = say.None
	}
	return values
}

// findOver finds a race that has begun, as desk.FindRace finds one to come. Of
// several with one name the last is meant; one to come is refused with its date.
func findOver(races []storage.Race, text string, today planner.Date) (storage.Race, error) {
	over := desk.Begun(races, today)
	sure := desk.SureMatches(over, text, today)
	if len(sure) == 0 {
		if day, err := typed.DateBack(text, today); err == nil {
			sure = desk.OnDate(over, day.String(), today)
		}
	}
	if n := len(sure); n > 0 {
		last := sure[n-1]
		for _, r := range sure {
			if !show.SameName(r.Name, last.Name) {
				return storage.Race{}, desk.Ambiguous("race", text, sure)
			}
		}
		return last, nil
	}
	found, err := desk.FindRace(races, text, today)
	if ahead := desk.ToCome(races, today); err != nil || len(desk.SureMatches(ahead, text, today))+len(desk.OnDate(ahead, text, today)) == 0 {
		if near, miss := desk.CloseRace("race", over, text, 0); miss == nil { // a slip of the pen
			return near, nil
		}
	}
	if err == nil && found.Date > today {
		err = say.Refuse("race", "%s is on %s, still to come. Tell me how it went once it is over. Good luck until then", found.Name, found.Date.Long())
	}
	return found, err
}

// unlessNone is a text, empty where none was written.
func unlessNone(text string) string {
	if strings.EqualFold(text, say.None) {
		return ""
	}
	return text
}
