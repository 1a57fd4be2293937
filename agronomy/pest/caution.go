package pest

import (
	"haywarden/agronomy/caution"
)

// The cautions of spraying and of going out to look, in words of our own. Source:
// [source.SpraySafety].
const (
	LabelIsLaw     caution.Caution = "The label is the law: read the whole of it for this crop, every species in a mixture and this state before you buy. Labels change. Nothing here allows more, sooner or otherwise than it says."
	WaitToHarvest  caution.Caution = "The days from spraying to cutting or grazing stand on the label and are kept in full: a field that was sprayed is neither cut, grazed nor fed before."
	Licence        caution.Caution = "Restricted products are bought and applied by a licensed applicator only. Ask the state's own guide or your extension office if you are not sure."
	Bees           caution.Caution = "Never spray when the crop or weeds in it bloom or bees work there: cut instead. Tell beekeepers nearby; late evening is the least bad hour."
	Drift          caution.Caution = "Keep to the label's limits on wind, on inversions and on distance to water, homes, gardens and other crops."
	StayOut        caution.Caution = "Nobody goes back in before the label's re-entry time without the gear it names, and neighbours, scouts and children are told. Wear that gear when you mix."
	WriteItDown    caution.Caution = "Write down what was sprayed, where, when, by whom and in what weather. If someone is hurt call emergency services or the poison centre, label in hand."
	FriendsOfCrop  caution.Caution = "Broad sprays kill what eats the pest and can bring worse later: spray on a count, never by the calendar."
	BeforeYouEnter caution.Caution = "Ask what was sprayed in a field before you walk into it."
)

// spraying is what goes with every instruction to spray.
func spraying() []caution.Caution {
	return []caution.Caution{LabelIsLaw, WaitToHarvest, Licence, Bees, Drift, StayOut, WriteItDown, FriendsOfCrop}
}

// TellSpray is an instruction that speaks of spraying, with all that goes with it. There is no other
// way to give one.
func TellSpray(action string) caution.Told {
	all := spraying()
	return caution.Tell(action, all[0], all[1:]...)
}

// TellWalk is an instruction to walk a field and count.
func TellWalk(action string) caution.Told { return caution.Tell(action, BeforeYouEnter) }
