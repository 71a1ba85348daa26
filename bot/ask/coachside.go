package ask

import (
	"strings"

	"musette/bot/say"
	"musette/bot/show"
	"musette/planner"
	"musette/planner/asked"
	"musette/planner/engine"
)

// riders are the names of the club's riders, by which coaches ask, and riders are told
// that they may not.
func (t *talk) riders() ([]string, error) {
	if t.req.Rider.Club.ID == 0 {
		return nil, nil
	}
	athletes, err := t.base.DB.Athletes(t.ctx, t.req.Rider.Club.ID)
	if err != nil {
		return nil, err
	}
	var names []string
	for _, a := range athletes {
		if a.ID != t.req.Rider.Athlete.ID {
			names = append(names, a.Name)
		}
	}
	return names, nil
}

// forCoaches is what riders hear who ask about others.
func (t *talk) forCoaches() say.Reply {
	reply := say.Reply{}
	reply.Addf("I answer questions about your own plan only. What others ride is between them and the club's coaches.")
	reply.Buttons = []say.Button{{Label: "My session", Command: "ride"}, {Label: "The club's races", Command: "race list"}}
	return reply
}

func (t *talk) whoTapers(*asked.Part) (say.Reply, error) {
	if !t.req.IsCoach() {
		return t.forCoaches(), nil
	}
	return t.run("coach roster", map[string]string{})
}

// rider answers a coach about one rider.
func (t *talk) rider(p *asked.Part) (say.Reply, error) {
	if !t.req.IsCoach() || p.Rider == "" {
		if p.Rider == "" && t.req.IsCoach() {
			reply, err := t.run("coach roster", map[string]string{})
			if err == nil && p.Stranger != "" {
				reply.Lines = append([]say.Line{say.Linef("This club has no rider called %s.", strings.TrimSuffix(p.Stranger, "'s"))}, reply.Lines...)
			}
			return reply, err
		}
		return t.forCoaches(), nil
	}
	reply, err := t.run("coach athlete", map[string]string{"athlete": p.Rider})
	if err != nil {
		return reply, err
	}
	day, ok := t.day(p)
	if !ok {
		return reply, nil
	}
	athletes, err := t.base.DB.Athletes(t.ctx, t.req.Rider.Club.ID)
	if err != nil {
		return reply, err
	}
	for _, a := range athletes {
		if a.Name != p.Rider {
			continue
		}
		facts, err := t.base.DB.Facts(t.ctx, a.ID)
		if err != nil || len(facts.Weeks) == 0 {
			return reply, err
		}
		d, ok := engine.DeriveUntil(t.today, day, facts).Day(day)
		if !ok {
			return reply, nil
		}
		line := say.Linef("%s, %s: %s.", a.Name, d.Date.Short(), show.Headline(d))
		if d.Phase == planner.Health {
			line = say.Linef("%s, %s: not training: health.", a.Name, d.Date.Short())
		}
		reply.Lines = append([]say.Line{line}, reply.Lines...)
		reply.Date = day
		break
	}
	return reply, nil
}
