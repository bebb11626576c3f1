package catalog_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"duskhand/sky"
	"duskhand/sky/catalog"
)

// The brightest stars as the Hipparcos catalogue has them, ICRS, epoch and equinox J2000.0, with proper motions in
// milliarcseconds a year, cos δ included (van Leeuwen 2007 and ESA 1997; memory). Whoever aligns a mount looks at these.
func TestPlacesOfTheStarsThatMountsAreAlignedOn(t *testing.T) {
	for _, c := range []struct {
		name, ra, dec string
		inRA, inDec   float64
	}{
		{"Sirius", "06h45m08.92s", "-16°42'58.0\"", -546.01, -1223.07},
		{"Canopus", "06h23m57.11s", "-52°41'44.4\"", 19.93, 23.24},
		{"Arcturus", "14h15m39.67s", "+19°10'56.7\"", -1093.39, -2000.06},
		{"Vega", "18h36m56.34s", "+38°47'01.3\"", 200.94, 286.23},
		{"Capella", "05h16m41.36s", "+45°59'52.8\"", 75.25, -426.89},
		{"Rigel", "05h14m32.27s", "-08°12'05.9\"", 1.31, 0.50},
		{"Procyon", "07h39m18.12s", "+05°13'30.0\"", -714.59, -1036.80},
		{"Achernar", "01h37m42.85s", "-57°14'12.3\"", 87.00, -38.24},
		{"Betelgeuse", "05h55m10.31s", "+07°24'25.4\"", 27.54, 11.30},
		{"Altair", "19h50m47.00s", "+08°52'06.0\"", 536.23, 385.29},
		{"Aldebaran", "04h35m55.24s", "+16°30'33.5\"", 63.45, -188.94},
		{"Antares", "16h29m24.46s", "-26°25'55.2\"", -12.11, -23.30},
		{"Spica", "13h25m11.58s", "-11°09'40.8\"", -42.35, -30.67},
		{"Pollux", "07h45m18.95s", "+28°01'34.3\"", -626.55, -45.80},
		{"Fomalhaut", "22h57m39.05s", "-29°37'20.1\"", 328.95, -164.67},
		{"Deneb", "20h41m25.92s", "+45°16'49.2\"", 2.01, 1.85},
		{"Regulus", "10h08m22.31s", "+11°58'02.0\"", -248.73, 5.59},
		{"Polaris", "02h31m49.09s", "+89°15'50.8\"", 44.48, -11.85},
	} {
		t.Run(c.name, func(t *testing.T) {
			ra, err := sky.ParseRightAscension(c.ra)
			require.NoError(t, err)
			dec, err := sky.ParseAngle(c.dec)
			require.NoError(t, err)
			o, err := catalog.Find(c.name)
			require.NoError(t, err)
			assert.Equal(t, catalog.Star, o.Kind)
			off := o.Star.Place.Direction().Separation(sky.J2000{RA: ra, Dec: dec}.Direction())
			assert.Less(t, off.Arcseconds(), 0.5, "0.01 s and 0.1″ are the digits here, 0.0001° those of the table")
			// The two reductions of the one satellite's measurements differ by 5 mas a year where a companion pulls.
			assert.InDelta(t, c.inRA, float64(o.Star.Motion.RA/sky.MilliarcsecondPerYear), 6)
			assert.InDelta(t, c.inDec, float64(o.Star.Motion.Dec/sky.MilliarcsecondPerYear), 6)
		})
	}
}

// Objects that everybody has photographed, by the middle that the databases give (memory). The table has
// 0.1 minutes of right ascension and 1′: 0.9′ together; what has no sharp middle is allowed a part of its size.
func TestPlacesOfObjectsThatEverybodyKnows(t *testing.T) {
	for _, c := range []struct {
		name, ra, dec string
		within        float64 // arcminutes
		kind, where   string
	}{
		{"M 31", "00h42m44.3s", "+41°16'09\"", 1, "galaxy", "And"},
		{"M 33", "01h33m50.9s", "+30°39'37\"", 1, "galaxy", "Tri"},
		{"M 51", "13h29m52.7s", "+47°11'43\"", 1, "galaxy", "CVn"},
		{"M 81", "09h55m33.2s", "+69°03'55\"", 1, "galaxy", "UMa"},
		{"M 87", "12h30m49.4s", "+12°23'28\"", 1, "galaxy", "Vir"},
		{"M 104", "12h39m59.4s", "-11°37'23\"", 1, "galaxy", "Vir"},
		{"NGC 253", "00h47m33.1s", "-25°17'18\"", 1, "galaxy", "Scl"},
		{"NGC 1365", "03h33m36.4s", "-36°08'25\"", 1, "galaxy", "For"},
		{"NGC 5128", "13h25m27.6s", "-43°01'09\"", 1, "galaxy", "Cen"},
		{"M 13", "16h41m41.2s", "+36°27'36\"", 1, "globular cluster", "Her"},
		{"M 22", "18h36m23.9s", "-23°54'17\"", 1, "globular cluster", "Sgr"},
		{"NGC 104", "00h24m05.7s", "-72°04'53\"", 1, "globular cluster", "Tuc"},
		{"NGC 5139", "13h26m47.3s", "-47°28'46\"", 1, "globular cluster", "Cen"},
		{"M 45", "03h47m00s", "+24°07'00\"", 6, "open cluster", "Tau"},
		{"M 57", "18h53m35.1s", "+33°01'45\"", 1, "planetary nebula", "Lyr"},
		{"M 27", "19h59m36.3s", "+22°43'16\"", 1, "planetary nebula", "Vul"},
		{"NGC 7293", "22h29m38.6s", "-20°50'14\"", 1, "planetary nebula", "Aqr"},
		{"M 1", "05h34m31.9s", "+22°00'52\"", 1, "supernova remnant", "Tau"},
		{"M 42", "05h35m17.3s", "-05°23'28\"", 2, "", "Ori"},
		{"M 8", "18h03m37s", "-24°23'12\"", 6, "", "Sgr"},
		{"NGC 2070", "05h38m38s", "-69°05'42\"", 1.5, "", "Dor"},
		{"NGC 3372", "10h45m08s", "-59°52'00\"", 20, "", "Car"},
	} {
		t.Run(c.name, func(t *testing.T) {
			ra, err := sky.ParseRightAscension(c.ra)
			require.NoError(t, err)
			dec, err := sky.ParseAngle(c.dec)
			require.NoError(t, err)
			o, err := catalog.Find(c.name)
			require.NoError(t, err)
			off := o.Star.Place.Direction().Separation(sky.J2000{RA: ra, Dec: dec}.Direction())
			assert.Less(t, off.Arcminutes(), c.within)
			if c.kind != "" {
				assert.Equal(t, c.kind, o.Type)
			}
			assert.Equal(t, c.where, o.Constellation)
			assert.Zero(t, o.Star.Motion, "what lies so far away does not move")
		})
	}
}
