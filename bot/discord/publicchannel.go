package discord

import (
	"context"
	"slices"

	"musette/bot/discord/api"
)

// closeChannel says how a channel becomes one for coaches only.
const closeChannel = "in that channel's settings, Permissions, take View Channel from everyone and allow it to the coach role and to me"

// readByAll reports that everybody in the server can read a channel. What the
// channel says of everybody's role, which has the server's id, goes before what
// the role may do elsewhere; where that is not known, it may view.
func readByAll(ctx context.Context, client *api.Client, channel *api.Channel) bool {
	if channel.Type == api.ChannelPrivateThread {
		return false
	}
	if at := slices.IndexFunc(channel.Overwrites, func(o api.Overwrite) bool { return o.ID == channel.GuildID }); at >= 0 {
		switch o := channel.Overwrites[at]; {
		case rights(o.Allow)&rightView != 0:
			return true
		case rights(o.Deny)&rightView != 0:
			return false
		}
	}
	roles, err := client.Roles(ctx, channel.GuildID)
	if at := slices.IndexFunc(roles, func(r api.Role) bool { return r.ID == channel.GuildID }); err == nil && at >= 0 {
		return rights(roles[at].Permissions)&(rightView|rightAdministrator) != 0
	}
	return true
}
