package asked

import (
	"slices"
	"strings"
)

// What is sure enough to be answered without asking.
const (
	sureShare  = 0.50
	sureMargin = 0.18
	leastOffer = 0.06
)

// judge finds the topic.
func (p *Part) judge(k Known) {
	if p.follows(k.Last) {
		return
	}
	sums := model().logits(p.plain)
	for _, r := range rules {
		if r.pattern.MatchString(p.plain) {
			for _, t := range r.topics {
				sums[t] += r.weight
			}
		}
	}
	if p.Rider != "" {
		sums[slices.Index(Topics, Rider)] += 5
	} else {
		sums[slices.Index(Topics, Rider)] -= 2
	}
	if known := p.knownShare(); known < 0.5 {
		sums[slices.Index(Topics, Unknown)] += 3
	}
	share := shares(sums)
	order := make([]int, len(Topics))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case share[a] > share[b]:
			return -1
		case share[a] < share[b]:
			return 1
		}
		return 0
	})
	best, second := share[order[0]], share[order[1]]
	p.Topic, p.Confidence = Topics[order[0]], best
	if best >= sureShare && best-second >= sureMargin {
		return
	}
	for _, i := range order[:mostOffers] {
		if t := Topics[i]; share[i] >= leastOffer && t != Unknown && t != RedFlag && t != Thanks {
			p.Offers = append(p.Offers, t)
		}
	}
	if p.Topic == Unknown && best >= 0.4 || len(p.Offers) == 0 {
		p.Topic, p.Offers = Unknown, nil
	}
}

// knownShare is how many of the words are known, as a share.
func (p *Part) knownShare() float64 {
	n, known := 0, 0
	for _, w := range strings.Fields(p.plain) {
		n++
		if w != strings.ToLower(w) || vocabulary()[w] || strings.ContainsAny(w, "0123456789") {
			known++
		}
	}
	if n == 0 {
		return 0
	}
	return float64(known) / float64(n)
}
