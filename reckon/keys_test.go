package reckon

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"haywarden/agronomy/method"
)

// fixedKeys are the names and keys that scripts rely on, NAME: inputs > outputs. A + lets the
// discipline add inputs of its own.
const fixedKeys = `
rfv: adf ndf scheme > ddm dmi rfv grade
rfv-error: adf ndf sd_adf sd_ndf corr > rfv sd
rfq: kind grass_share cp ndf adf ee ash ndfd48 ndicp > nfc tdn dmi rfq
forage-energy: cp ndf ndicp adicp ee ash lignin ndfd48 intake > nfc tdn1x de1x discount me nel
forage-milk: cp ndf ndicp adicp ee ash lignin ndfd48 intake weight fat protein lactose > intake_kg nel kg_per_tonne lb_per_ton
stick: height stage cut > ndf adf rfv sd_rfv
stick-field: readings cut > rfv ndf adf spot_se method_sd sd_rfv n
mean-stage: counts weights > msc msw ivtd cp
heat-fibre: gdd41 > ndf sd
mix-trigger: grass_share > height_in ndf_target ndf_per_day
quality-ahead: ndf adf cp days season tmean > ndf adf cp rfv
cut-start: feed_rfv product per_day harvest_days > cut_rfv start_rfv
lab-check: basis + > flags
reduced-lignin: ndfd48 lignin ndf > ndfd48 lignin days_at_equal_quality
prediction-bias: predicted lab sw sb > bias rmse sep slope intercept r2 ccc shrunk_bias shrunk_sd
combine: values sds corr > value sd
degree-days: method unit tmin tmax base upper cutoff > daily total
freeze-dates: side days method chances > days dates q
sun: lat day > ra daylength
reference-et: lat elevation day tmax tmin rhmax rhmin tdew wind sunshine solar clip > rs rn eto
reference-et-temp: lat day tmax tmin > eto
soil-water: taw depletion p eto rain kc > depletion ks drainage
dry-spell: p01 p11 n horizon today > next_n within
frost-hours: tmin tmax threshold > hours
fall-rest: heat_after > chance_over_500 chance_under_200 risk
drying-rate: form solar temp vpd soil_moisture swath first_day chemical scaling > rate
drying-time: rate from to > hours
equilibrium-moisture: rh > db wb
rain-loss: rain moisture level crop > loss_pct low high
field-losses: method moisture rain yield ndf cp > steps total_pct ndf cp
hay-storage-loss: moisture place wrap > loss_pct low high
silo-loss: density > loss_pct
bale-moisture: package > max_pct
hay-heat: temp > level action
stem-count: counts frame acres > mean lo95 hi95 cv chance_below_40 chance_below_55 class yield_potential more_frames
plant-count: counts frame age > mean lo95 hi95 class
crown-rating: counts > health_pct effective_share flag
winter-injury: age hardiness resistance soil_k drainage moisture interval last_cut stubble > points class
keep-or-turn: stems roots_bad_pct grass_share price harvest_cost fixed_cost local next_eae > matrix_verdict next_year_margin money_verdict
nitrogen-credit: state plants texture regrowth year > lb_ac
regrowth-run: lat taw cuts cycle reserve + > stage height_cm lai potential field ndf adf cp reserve ks
cut-interval: temp days solar ks > potential field stage ndf reserve
seeding-rate: species rate seeds_per_lb purity germination hard coating > seeds_ft2 live_seeds_ft2 pls
seeding-goal: goal pls_lb species purity germination coating acres price > bulk_lb_ac total_lb cost
seeding-last-day: frost weeks emergence_days > date
seedling-survival: live_seeds_ft2 > emerged spring1 spring2
reseeding-risk: topgrowth resistance rain soil tillage age delay > points class
disease-index: ratings > points of
lime: guide ph buffer target depth + > tons_ac lb_ac basis split lead_time
lime-quality: state passing cce moisture > index value
phosphorus-potassium: guide crop p k extractant unit cec yield region > p2o5 k2o parts
removal: crop yield source p k s b > p2o5 k2o s mg ca b
manure-credit: kind rate availability p2o5 k2o > p2o5 k2o
tissue: n p k ca mg s b mn fe cu zn mo > value range class remedy
blend: need prices n_max acres > products cost_ac shadow
weevil-clock: dd48 state > event next scout_from
weevil-threshold: height hay cost > larvae_per_stem
hopper-threshold: height hay cost variety seeding_year > per_sweep
spray-or-cut: pest count height hay cost days_to_cut phi bloom label > verdict net_spray net_cut blocks
count-interval: counts kind threshold > mean lo95 hi95 chance_over
sample-size: mean model k a b precision > n
stop-line: model m0 m1 alpha beta k > slope low high
injury-level: cost value loss_per_pest kill > eil et
minor-pest: pest count height > threshold verdict
nitrate: ppm_n animal > class limit
bloom-heat: growth tmean > days
cow-intake: edition weight milk fat dim wol protein lactose parity condition > dmi
heifer-intake: edition weight mature_weight nem > dmi
dry-intake: edition weight days_pregnant week ndf > dmi
energy-need: edition weight milk fat protein lactose days_pregnant calf > maintenance milk pregnancy nel
forage-limit: weight ndf share > kg_day lb_day
herd-need: storage_loss feeding_loss field_loss yield + > forage legume acres
silo-tons: shape diameter height width length wall crown ramp area1 area2 density > tons_dm density volume_ft3
packing: weight layer tractors dm rate depth > factor density
feed-out: lb_day face density > inches_day verdict
weeks-left: tons loss lb_day > weeks days
silo-left: fill diameter height removed > tons_dm full density
bale-weight: package diameter width height length density moisture bales > volume_ft3 weight dm tons_dm
packing-pace: weight layer tractors dm depth goal > rate by_weight
packing-worth: tons density price > tons_saved room_pct worth
face-size: lb_day density rate > face
allocate: rule whole + > cost shares shadow gaps
hay-price: rfv base base_rfv per_point floor > price
standing-hay: yield price loss harvest > value_ac
nutrient-worth: nel cp corn meal > value_ton
machine-cost: price salvage years hours rate kind + > per_year per_hour per_acre
machine-capacity: speed width efficiency > acres_h
stand-life: yields price harvest fixed establishment rate salvage > eae best_age
partial-budget: added_returns reduced_costs added_costs reduced_returns > net
delay-cost: yield rfv per_day tons_per_day loss harvest_rfv per_point base base_rfv days > value
cut-or-wait: dry_now wet_now dry_later wet_later p_now p_later > ev_now ev_wait p_break
when-to-cut: values losses chances > value day
acres-to-mow: acres chances cost_short cost_over > acres cost
risk-measures: outcomes chances tail > mean sd cvar
trial-anova: design response entry block whole sub level + > table lsd cv
trial-blup: response fixed random + > variances fixed blups criterion
trial-stability: response entry environment + > mean slope deviation wricke shukla superiority
trial-lsd: mse replicates df level sites var_gl var_g mean advantage > lsd cv heritability shrunken
percent-of-check: entry check > of_ratios of_means
trial-replicates: entries cv difference level power > replicates power
cec: k mg ca buffer ph > cec
extractant: nutrient from test > other by_lab
fertility-by-class: p k > p2o5 k2o
phosphate-by-olsen: p hay calcareous > low high
build-up: guide p k extractant cec yield region years > p2o5 k2o p_after k_after
winter-points: age hardiness resistance soil_k drainage moisture interval last_cut stubble points > low high class_low class_high ask
emergency-forage: date feed > forages until days
clover-life: age > share
crown-temperature: tmax tmin tmax_before tmin_before snow > crown low says
seed-lots: species goal acres purity germination hard coating seeds_per_lb price bag > lots cheapest
seed-depth: soil season > low high
seedling-emergence: species tmean > days
seeding-window: frost early_frost emergence_days > from best to
autotoxic-ground: plants radius > share
species-choice: drainage ph years eats grazed > first ranked
dormancy-rating: heights classes height > rating class intercept slope
selection-index: P G weights > b response accuracy
fill-neighbour: x y at > value slope intercept r
fill-distance: distance values > value
fill-rain: normal normals amounts > rain
likeness: heat rain heat_now rain_now heat_width rain_width > weights effective
blend-forecast: forecast error mean spread > mean sd weight
rain-gamma: amounts > alpha beta
trend: years values > slope s z p
share-interval: k n > share lo95 hi95
group-intake: weight milk_energy dim older_share condition > dmi
intake-by-fibre: forage_ndf adf_ndf ndfd milk > dmi sd
intake-cross-check: weight fcm ndf > dmi sd
unconditioned-rate: rate cut > rate hopeful
dew-limit: rh wind > db wb
swath-rain: moisture rain swath > db wb
swath-run: solar daylength tmax tmin soil_moisture swath mow from to scaling damp > moisture rate hours day hour
corrected-milk: milk fat > fcm
digestibility-response: points cows > intake milk
heifer-by-fibre: weight ndf > dmi
close-up-intake: animal fit weight days_pregnant > dmi
tdn-energy: tdn > nel_kg nel_lb nel_lb_printed
diet-fibre: forage_share forage_ndf diet_ndf > ndf_from_forage flags
forage-plan: group head dmi_lb forage_share forages parts yields field_loss storage_loss feeding_loss reserve > forage fed stored standing acres
quality-target: group table rfq > rfq_low rfq_high cp_low cp_high ndf_low ndf_high ndfd_low ndfd_high verdict
price-by-moisture: price dm to_dm rfv to_rfv > price
unit-cost: price cp nel > protein energy
nutrient-prices: corn meal > energy protein
nutrient-worth-fibre: nel cp ndf hay > value_ton
hay-by-factors: forage meal corn hay > value_ton
standing-share: yield price share cuts cut by > value_ac cut_share
hay-bid: worth dm loss freight other hauling cost error > buyer_most seller_least middle verdict
land-rent: yield price costs owner other error > tenant_most owner_least middle verdict
crop-share: owner tenant yield price > owner_share owner_tons owner_net tenant_net
capital-recovery: price salvage years rate > factor per_year insurance
machine-repair: price hours kind > cost share life_used
machine-fuel: power fuel > gallons_h cost_h with_oil_h
machine-timeliness: acres yield value per_day hours capacity fit_days start > cost cost_acre
harvest-pace: machine speed width efficiency hours acres free_days fit_days > acres_h slowest acres_day days
own-or-hire: yearly running hired acres error > break_even own hire verdict
cost-per-ton: lines cut_cost cuts establishment years rate yield price > per_acre per_ton stand harvest margin yield_even
removal-cost: p2o5 k2o by > cost_ton
break-even: cost yield > price
break-even-yield: establishment yearly price years yield > yields profits
one-more-cut: yield price harvest nutrients spring_loss spring_price > net break_even
milk-delay: milk price cows days > cow_day all
cash-flow: cash rate > npv annuity irr
equal-annual: cash salvage outlay rate > npv eae marginal best_age chain
stand-salvage: credits benefit rate nitrogen termination > salvage
rotation-life: yields price harvest fixed establishment rate credits corn_yield corn_price corn_cost bump nitrogen termination > corn_first corn_last eae best_age
replace-with-risk: net cost rate kill > worth start annuity best_age
worth-protecting: cost loss > chance
cut-with-updates: day issued rain values losses > cut_now now wait blind blind_day update_worth cut_below
mow-plan: mean sd acres chances cost_short cost_over capacity > mow cost ratio uncapped cap_cost costs z
weigh-options: option outcomes chances tail how error > options mean sd cvar score weight level dominated
tell-apart: a error_a b error_b corr > difference error verdict
machine-loss: pass moisture yield crop baler > loss_pct low high leaf_pct
respiration-loss: temp moisture hours > rate loss_pct
loss-step: share lost ndf adf cp > ndf adf cp rfv
silage-loss: structure moisture density > loss_pct low high
feed-out-loss: rate season > loss_pct low high
bale-rind: diameter depth > share_pct
bale-now: package moisture > verdict action limit_pct
silo-gas: filled on > stage action peak_until off_until closed_until
lot-sample: value target core_sd cores lab_sd tests > se chance_over safe_value apart
cores-needed: core_sd half_width > cores
field-to-bunk: method moisture rain yield crop baler ndf adf cp store wrap density face season feeder > steps left_pct left_low left_high ndf adf cp rfv rfv_low rfv_high
forage-worth: rfv nel cp lb_per_ton base base_rfv per_point floor milk corn meal > by_market by_nutrients by_milk
hay-grade: adf ndf cp > rfv tdn usda usda_columns task_force task_force_columns illinois grass
precision-line: n model k a b precision > total
weevil-rule: guide tips larvae height days_to_cut > act rule
hopper-heat: tmean > egg nymph generation
stubble-days: hay cost next_cut > days
nitrate-form: value form in > ppm_n
nitrate-blend: a b limit > share
blister-beetles: weight dose content > beetles
`

// TestKeysAreTheFixedOnes proves that no discipline renames, drops or adds a name that scripts rely on.
func TestKeysAreTheFixedOnes(t *testing.T) {
	type row struct {
		Inputs, Outputs []string
		more            bool
	}
	fixed := map[string]row{}
	for text := range strings.SplitSeq(strings.TrimSpace(fixedKeys), "\n") {
		name, rest, _ := strings.Cut(text, ": ")
		in, out, _ := strings.Cut(rest, " > ")
		r := row{Inputs: strings.Fields(in), Outputs: strings.Fields(out)}
		if i := slices.Index(r.Inputs, "+"); i >= 0 {
			r.Inputs, r.more = slices.Delete(r.Inputs, i, i+1), true
		}
		fixed[name] = r
	}
	for _, m := range methods() {
		want, ok := fixed[m.Name]
		if !ok {
			t.Errorf("%s: no such name is fixed", m.Name)
			continue
		}
		got := row{Inputs: keyList(m)}
		for _, out := range m.Outputs {
			got.Outputs = append(got.Outputs, out.Key)
		}
		if want.more {
			got.Inputs = slices.DeleteFunc(got.Inputs, func(k string) bool { return !slices.Contains(want.Inputs, k) })
		}
		for _, list := range [][]string{want.Inputs, want.Outputs, got.Inputs, got.Outputs} {
			slices.Sort(list)
		}
		if diff := cmp.Diff(want.Inputs, got.Inputs); diff != "" {
			t.Errorf("%s: inputs (-fixed +declared):\n%s", m.Name, diff)
		}
		if diff := cmp.Diff(want.Outputs, got.Outputs); diff != "" {
			t.Errorf("%s: outputs (-fixed +declared):\n%s", m.Name, diff)
		}
	}
}

// methods are all that are declared.
func methods() []*method.Method {
	var all []*method.Method
	for _, d := range Disciplines() {
		all = append(all, d.Methods...)
	}
	return all
}
