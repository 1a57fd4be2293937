package office

import (
	"context"
	"fmt"

	"haywarden/advice"
)

// Winter orders all stands after a winter.
func (o *Office) Winter(ctx context.Context, actor Actor, ask Ask) (advice.Triage, error) {
	if err := may(actor, actRead); err != nil {
		return advice.Triage{}, err
	}
	out, err := o.outlook(ctx, o.settle(ask))
	if err != nil {
		return advice.Triage{}, fmt.Errorf("judge the winter: %w", err)
	}
	return advice.Winterkill(out), nil
}
