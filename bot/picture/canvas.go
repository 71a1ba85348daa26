package picture

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"sync"

	"github.com/go-analyze/charts/chartdraw/drawing"
)

// canvas is one picture in the making. Its first error is kept for the end.
type canvas struct {
	img *image.RGBA
	gc  *drawing.RasterGraphicContext
	err error
}

type point struct{ x, y float64 }

// font is letters of one weight and size in pixels.
type font struct {
	name string
	size float64
}

// The letters come with the chart library: Noto Sans.
const mediumName, boldName = "notosans", "notosans-bold"

var (
	words  = font{mediumName, wordSize}
	strong = font{boldName, wordSize}
	titles = font{boldName, titleSize}
)

// loadFonts unpacks the letters once; later on they are only looked up.
var loadFonts = sync.OnceValue(func() error {
	for _, name := range [...]string{mediumName, boldName} {
		if drawing.GetFont(name) == nil {
			return fmt.Errorf("picture: the font %s does not load", name)
		}
	}
	return nil
})

// AtOnce is how many pictures are drawn at once. It bounds the memory: each takes
// a few megabytes.
const AtOnce = 4

var turns = make(chan struct{}, AtOnce)

// Turn waits until a picture may be drawn, unless the context ends before. done
// gives the turn back.
func Turn(ctx context.Context) (done func(), err error) {
	select {
	case turns <- struct{}{}:
		return func() { <-turns }, nil
	case <-ctx.Done():
		return nil, fmt.Errorf("no room to draw in time: %w", ctx.Err())
	}
}

// buffers keeps the encoder's state for the next picture.
type buffers struct{ pool sync.Pool }

func (b *buffers) Get() *png.EncoderBuffer  { e, _ := b.pool.Get().(*png.EncoderBuffer); return e }
func (b *buffers) Put(e *png.EncoderBuffer) { b.pool.Put(e) }

// Trying harder takes half as long again and saves a twentieth of the bytes.
var encoder = png.Encoder{CompressionLevel: png.BestSpeed, BufferPool: &buffers{}}

// render draws one picture of that size on its card. Who draws for many takes a Turn first.
func render(width, height int, paint func(*canvas)) ([]byte, error) {
	if err := loadFonts(); err != nil {
		return nil, err
	}
	img := image.NewRGBA(image.Rect(0, 0, width, height))
	c := &canvas{img: img, gc: drawing.NewRasterGraphicContext(img)}
	c.gc.SetDPI(72) // a point is a pixel
	w, h := float64(width), float64(height)
	c.box(0, 0, w, h, border)
	c.box(3, 3, w-3, h-3, card)
	paint(c)
	if c.err != nil {
		return nil, c.err
	}
	var out bytes.Buffer
	if err := encoder.Encode(&out, img); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// box fills a rectangle with sharp edges: its corners are rounded to pixels.
func (c *canvas) box(x0, y0, x1, y1 float64, col color.RGBA) {
	r := image.Rect(pixel(x0), pixel(y0), pixel(x1), pixel(y1))
	draw.Draw(c.img, r, image.NewUniform(col), image.Point{}, draw.Src)
}

func pixel(v float64) int { return int(math.Round(v)) }

// outlined is a box with an edge of two pixels inside.
func (c *canvas) outlined(x0, y0, x1, y1 float64, edge, fill color.RGBA) {
	c.box(x0, y0, x1, y1, edge)
	if x1-x0 > 4 && y1-y0 > 4 {
		c.box(x0+2, y0+2, x1-2, y1-2, fill)
	}
}

// dots is a horizontal dotted line, light to the eye yet of full contrast.
func (c *canvas) dots(x0, x1, y float64, col color.RGBA) {
	for x := x0; x < x1; x += 9 {
		c.box(x, y-1, x+2, y+1, col)
	}
}

func (c *canvas) fill(col color.RGBA, at ...point) {
	c.path(at)
	c.gc.Close()
	c.gc.SetFillColor(col)
	c.gc.Fill()
}

// line joins points; dash alternates lengths of line and gap, nil draws through.
func (c *canvas) line(col color.RGBA, width float64, dash []float64, at ...point) {
	if len(at) < 2 {
		return
	}
	c.path(at)
	c.gc.SetStrokeColor(col)
	c.gc.SetLineWidth(width)
	c.gc.SetLineDash(dash, 0)
	c.gc.Stroke()
}

func (c *canvas) path(at []point) {
	c.gc.MoveTo(at[0].x, at[0].y)
	for _, p := range at[1:] {
		c.gc.LineTo(p.x, p.y)
	}
}

func (c *canvas) disc(at point, radius float64, col color.RGBA) {
	c.gc.MoveTo(at.x+radius, at.y)
	c.gc.ArcTo(at.x, at.y, radius, radius, 0, 2*math.Pi)
	c.gc.Close()
	c.gc.SetFillColor(col)
	c.gc.Fill()
}

// Where a text's anchor lies within it.
const (
	left   = 0.0
	middle = 0.5
	right  = 1.0
)

// text writes s with its baseline at y.
func (c *canvas) text(s string, f font, x, y, anchor float64, col color.RGBA) {
	c.gc.SetFont(drawing.GetFont(f.name))
	c.gc.SetFontSize(f.size)
	c.gc.SetFillColor(col)
	if _, err := c.gc.CreateStringPath(s, x-anchor*c.width(s, f), y); err != nil && c.err == nil {
		c.err = err
	}
	c.gc.Fill()
}

// tag is a text on a patch of card that keeps lines out of the letters.
func (c *canvas) tag(s string, f font, x, y, anchor float64, col color.RGBA) {
	w := c.width(s, f)
	x0 := x - anchor*w
	c.box(x0-5, y-0.78*f.size, x0+w+5, y+0.14*f.size, card)
	c.text(s, f, x, y, anchor, col)
}

// width is the room that s takes, in pixels.
func (c *canvas) width(s string, f font) float64 {
	c.gc.SetFont(drawing.GetFont(f.name))
	c.gc.SetFontSize(f.size)
	_, _, w, _, err := c.gc.GetStringBounds(s)
	if err != nil && c.err == nil {
		c.err = err
	}
	return w
}

// fit shortens s with an ellipsis until it takes at most room pixels.
func (c *canvas) fit(s string, f font, room float64) string {
	if c.width(s, f) <= room {
		return s
	}
	runes := []rune(s)
	low, high := 0, len(runes) // the longest beginning that fits
	for low < high {
		mid := (low + high + 1) / 2
		if c.width(cutTo(runes, mid), f) <= room {
			low = mid
		} else {
			high = mid - 1
		}
	}
	return cutTo(runes, low)
}
