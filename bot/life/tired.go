package life

import (
	"context"
	"errors"
	"slices"

	"musette/bot/desk"
	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/engine"
	"musette/planner/typed"
	"musette/storage"
)

// How near days of heavy legs count together, and the words that tell and take back.
const (
	fewDays   = 5
	legsHeavy = "heavy"
	legsFine  = "fine"
	legsEased = "easier"
)

// tellTired answers heavy legs: it changes no plan by itself, and offers the easier form of the day.
func tellTired(ctx context.Context, b *desk.Base, req desk.Request) (say.Reply, error) {
	date, err := req.PastDay("day")
	if err != nil {
		return say.Reply{}, err
	}
	facts, err := b.Facts(ctx, req.Rider)
	if err != nil {
		return say.Reply{}, err
	}
	today := req.Rider.Today
	if req.Has("minutes") {
		if _, err := typed.Minutes(req.Get("minutes")); err != nil {
			return say.Reply{}, say.InField("minutes", err)
		}
	}
	if req.Get("legs") == legsFine {
		return notTired(ctx, b, req, date)
	}
	if h, held := desk.Held(facts.Now); held && (req.Get("legs") != legsEased || !req.Has("minutes")) { // a way back is kept
		return show.Stopped(say.Linef("No training: your health comes first."), h.Level), nil
	}
	if !desk.Planned(facts.Now) {
		return req.NeedWeek(), nil
	}
	if req.Get("legs") == legsEased {
		return takeEasier(ctx, b, req, facts, date)
	}
	isNew, err := b.DB.AddHeavyLegs(ctx, req.Rider.Athlete.ID, today, date)
	if err != nil {
		return say.Reply{}, err
	}
	days, err := b.DB.HeavyLegs(ctx, req.Rider.Athlete.ID, date.AddDays(1-fewDays))
	if err != nil {
		return say.Reply{}, err
	}
	var p say.Page
	reply := say.Reply{Date: date}
	if date < today || slices.ContainsFunc(facts.Now.Done, func(r planner.Ride) bool { return r.Date == date }) {
		p.Addf("Heavy legs on %s: the day is over, so nothing changes.", show.Dated(date, today))
		p.Addf("Ride the next days no harder than they are planned.")
	} else {
		day, _ := engine.DeriveUntil(today, date, facts.All).Day(date)
		easier(&p, &reply, facts, day, today)
	}
	p.Add(whatItMeans(days, date, today)...)
	label := say.TakeBack
	if isNew {
		label = "Undo"
	}
	reply.Offer(&p, label, "tell tired", map[string]string{"day": date.String(), "legs": legsFine})
	reply.Lines = p.Done()
	return reply, nil
}

// notTired takes back heavy legs of a day.
func notTired(ctx context.Context, b *desk.Base, req desk.Request, date planner.Date) (say.Reply, error) {
	err := b.DB.RemoveHeavyLegs(ctx, req.Rider.Athlete.ID, date)
	if errors.Is(err, storage.ErrNotFound) {
		return say.Reply{}, say.Refuse("legs", "you entered no heavy legs on %s, so there is nothing to take back. For example legs:heavy", date.Long())
	}
	if err != nil {
		return say.Reply{}, err
	}
	reply := say.Reply{Date: date}
	reply.Addf("Taken back: heavy legs on %s. Your plan stays as it is.", show.Dated(date, req.Rider.Today))
	return reply, nil
}

// whatItMeans says what heavy legs may mean, and from the second of a few days on
// that the coaches see them.
func whatItMeans(days []planner.Date, date, today planner.Date) []say.Line {
	days = slices.DeleteFunc(days, func(d planner.Date) bool { return d > date })
	if len(days) < 2 {
		return []say.Line{say.Linef("Your coach does not see this yet. If your legs are heavy again within %d days, tell me, and your coach sees it too.", fewDays), say.Linef(stays)}
	}
	var names []string
	for _, d := range days {
		names = append(names, show.Dated(d, today))
	}
	return []say.Line{
		say.Linef("You had heavy legs on %s. That may mean too little rest, sleep or food, or an illness on its way. Ride easy until they are good again.", say.AndList(names)),
		say.Linef("Your coach sees these days in the digest."), say.Linef(stays)}
}

const stays = "If they stay heavy for more than a few days, or you sleep badly or have a high pulse at rest, tell your coach, and see a doctor if it does not go away."
