package nws

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/url"
	"strconv"
	"strings"
	"time"
)

// point is what the service says of a place.
type point struct {
	grid  string // address of its cell's raw grid
	zone  *time.Location
	asked time.Time
}

// point returns a place's grid cell, asked anew now and then; fresh tells whether it was.
func (c *Client) point(ctx context.Context, place string) (p point, fresh bool, err error) {
	c.mu.Lock()
	p, ok := c.points[place]
	c.mu.Unlock()
	now := c.world.Now()
	if age := now.Sub(p.asked); ok && age >= 0 && age < pointAge {
		return p, false, nil
	}
	got, err := c.get(ctx, c.base.String()+"/points/"+asPath(place), "")
	if errors.Is(err, errNotThere) {
		return p, true, fmt.Errorf("%w: %w", ErrOutside, err)
	}
	if err != nil {
		return p, true, err
	}
	if p, err = c.parsePoint(got.body); err != nil {
		return p, true, fmt.Errorf("%w: %w", ErrAnswer, err)
	}
	p.asked = now
	c.mu.Lock()
	c.points[place] = p
	c.mu.Unlock()
	return p, true, nil
}

func (c *Client) forget(place string) {
	c.mu.Lock()
	delete(c.points, place)
	c.mu.Unlock()
}

// asPath writes a place without trailing zeros: the service sends those who ask for 43.50 on to 43.5
// (from memory).
func asPath(place string) string {
	parts := strings.Split(place, ",")
	for i, s := range parts {
		if v, err := strconv.ParseFloat(s, 64); err == nil {
			parts[i] = strconv.FormatFloat(v, 'f', -1, 64)
		}
	}
	return strings.Join(parts, ",")
}

// parsePoint reads the answer to /points. The address of the grid must lie with the service that was
// asked: no answer can send the client elsewhere.
func (c *Client) parsePoint(body []byte) (p point, err error) {
	var in struct {
		Properties *struct {
			GridData string `json:"forecastGridData"`
			TimeZone string `json:"timeZone"`
		} `json:"properties"`
	}
	if err := json.Unmarshal(body, &in); err != nil {
		return p, fmt.Errorf("point: %w", err)
	}
	if in.Properties == nil {
		return p, errors.New("point: there are no properties in it")
	}
	u, err := url.Parse(in.Properties.GridData)
	if err != nil || u.Scheme != c.base.Scheme || u.Host != c.base.Host || u.User != nil {
		return p, fmt.Errorf("point: forecastGridData is %.200q, which is not at %s", in.Properties.GridData, c.base)
	}
	p.grid = u.String()
	name := in.Properties.TimeZone
	if name == "" || name == "Local" { // which would be the zone of this machine
		return p, fmt.Errorf("point: timeZone is %q", name)
	}
	if p.zone, err = c.world.Zone(name); err != nil {
		return p, fmt.Errorf("point: timeZone is %.100q, which is not known here: %w", name, err)
	}
	return p, nil
}
