package bottest

import (
	"musette/storage"
)

// OnPlatform goes on in a club and as a rider that have numbers of a platform.
func (k *Talk) OnPlatform(club, rider string) {
	k.Who.ClubKey, k.Who.AthleteKey = storage.PlatformKey("discord", club), storage.PlatformKey("discord", rider)
}

// Club is the club as it is stored.
func (k *Talk) Club() storage.Club {
	k.T.Helper()
	who, err := k.Base.Rider(k.T.Context(), k.Who)
	if err != nil {
		k.T.Fatal(err)
	}
	return who.Club
}
