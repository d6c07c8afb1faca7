//! How likely a flight meets its floors, worked from the spread of its inputs without drawing a single run.

use crate::flight::run::{push, Run, RunInputs};
use crate::flight::FlightNumbers;
use crate::floors::Floors;
use crate::memory::again;
use crate::spread::{Sd, Spreads, Widths};
use finwright_physics::guided::GuidedOutcome;
use finwright_physics::motor::ThrustCurve;
use finwright_physics::normal::{below, both_below};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// How likely a flight's exit speed, margin and thrust to weight meet their floors, each 0 to 1. To first order,
/// normally distributed; the wind isn't varied.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Likelihood {
    /// All three at once, with the tolerances that the file gives.
    pub all: f64,
    /// The same with no input spread wider than is usual: what a verdict rests on, so that to write down a wide
    /// tolerance is no worse than to write none.
    pub all_at_most_usual: f64,
    /// The exit speed.
    pub exit_speed: f64,
    /// The static margin on the pad.
    pub margin: f64,
    /// The mean thrust along the guide over the weight.
    pub push: f64,
    /// The standard deviation of the exit speed, m/s.
    pub exit_speed_sd: f64,
    /// The standard deviation of the margin, calibres.
    pub margin_sd: f64,
    /// The standard deviation of the thrust to weight along the guide.
    pub push_sd: f64,
    /// The input that counts most for the floor that is met least often.
    pub most: Input,
}

/// An input that varies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Input {
    /// The motor's thrust.
    Thrust,
    /// The mass on the pad.
    Mass,
    /// The balance point, by which the margin varies.
    Balance,
    /// The drag.
    Drag,
    /// The guides' friction.
    Friction,
}

/// How likely a flight meets its floors; `None` where it doesn't leave its guide, or its numbers aren't known.
pub fn likelihood(numbers: &FlightNumbers, spreads: &Spreads, floors: &Floors) -> Option<Likelihood> {
    let (run, curve, margin) = (numbers.run.as_ref()?, numbers.curve.as_ref()?, numbers.margin()?);
    let Run { inputs, front_travel, travel, .. } = *run;
    let is = |known: &Asked| {
        known.inputs == inputs
            && (known.front_travel, known.travel, known.margin) == (front_travel, travel, margin)
            && known.spreads == *spreads
            && known.floors == *floors
            && known.curve == *curve
    };
    let asked =
        || Asked { inputs, front_travel, travel, margin, spreads: *spreads, floors: *floors, curve: curve.clone() };
    again(curve, is, asked, || {
        let slopes = slopes(run, curve)?;
        let (centre, margin) = (centre(run)?, margin - floors.doubt);
        let (given, at_most_usual) = (sds(spreads, |sd| sd.value), sds(spreads, Sd::at_most_usual));
        let likely = joint(&slopes, centre, margin, &given, floors);
        let all_at_most_usual = match given == at_most_usual {
            true => likely.all,
            false => joint(&slopes, centre, margin, &at_most_usual, floors).all,
        };
        Some(Likelihood { all_at_most_usual, ..likely })
    })
}

/// A flight's worst run: every input [`FAR`] standard deviations to the bad side at once, by which one run often tells
/// what the likelihood itself takes nine for.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Worst {
    exit_speed: f64,
    push: f64,
    /// The margin, and one standard deviation of it, calibres.
    margin: (f64, f64),
}

impl Worst {
    /// That of a flight whose inputs spread so widely; `None` where it doesn't leave its guide then, or its numbers aren't
    /// known.
    pub fn of(numbers: &FlightNumbers, widths: &Widths) -> Option<Worst> {
        let (run, curve, margin) = (numbers.run.as_ref()?, numbers.curve.as_ref()?, numbers.margin()?);
        let inputs = RunInputs {
            mass: run.inputs.mass + FAR * widths.mass,
            drag: run.inputs.drag * (1.0 + FAR * widths.drag),
            friction: run.inputs.friction + FAR * widths.friction,
            ..run.inputs
        };
        let (exit_speed, push) = answer(run, curve, &inputs, (1.0 - FAR * widths.thrust).max(LEAST_THRUST))?;
        Some(Worst { exit_speed, push, margin: (margin, widths.margin) })
    }

    /// Whether the flight surely meets its floors in a share of at least `least` of such flights. `false` says nothing.
    ///
    /// Were exit speed and push straight in their inputs, the worst run would lie at least that many standard deviations
    /// below what is expected, since the sum of sizes is no less than the root of the sum of squares. They bend, so only
    /// half of it counts; and what the three floors are missed by adds up at the most.
    pub fn surely_meets(&self, floors: &Floors, least: f64) -> bool {
        let missed = 3.0 * (1.0 - below(0.5 * FAR));
        // The margin is straight in the balance point.
        let margin = self.margin.0 - floors.doubt - 0.5 * FAR * self.margin.1;
        least <= 1.0 - missed
            && margin >= floors.margin
            && self.exit_speed >= floors.exit_speed
            && self.push >= floors.push
    }
}

/// Standard deviations, and a share of the thrust that's as good as none.
const FAR: f64 = 6.0;
const LEAST_THRUST: f64 = 0.01;

/// A likelihood that is kept, with the floors that it was asked for.
#[derive(Clone, Debug)]
pub(crate) struct Likely {
    floors: Floors,
    answer: Option<Likelihood>,
}

impl Likely {
    /// Worked out.
    pub fn of(numbers: &FlightNumbers, spreads: Option<&Spreads>, floors: &Floors) -> Likely {
        let answer = spreads.and_then(|spreads| likelihood(numbers, spreads, floors));
        Likely { floors: *floors, answer }
    }

    /// The answer, where it's that to these floors.
    pub fn to(&self, floors: &Floors) -> Option<Option<Likelihood>> {
        (self.floors == *floors).then_some(self.answer)
    }
}

/// Everything that decides how likely a flight meets its floors.
#[derive(PartialEq)]
struct Asked {
    inputs: RunInputs,
    front_travel: f64,
    travel: f64,
    margin: f64,
    spreads: Spreads,
    floors: Floors,
    curve: ThrustCurve,
}

/// The answer of the run as it was run.
fn centre(run: &Run) -> Option<Answer> {
    Some((run.last()?.speed, run.push?))
}

/// The inputs that decide the run, in the order of the slopes.
const INPUTS: [Input; 4] = [Input::Thrust, Input::Mass, Input::Drag, Input::Friction];

/// Exit speed, m/s, and push.
type Answer = (f64, f64);

/// Standard deviations of the run's inputs, and of the margin.
#[derive(PartialEq)]
struct Sds {
    run: [f64; 4],
    margin: f64,
}

fn sds(spreads: &Spreads, pick: fn(Sd) -> f64) -> Sds {
    let run = [spreads.thrust, spreads.mass, spreads.drag, spreads.friction].map(pick);
    Sds { run, margin: pick(spreads.margin) }
}

fn joint(slopes: &[Answer; 4], centre: Answer, margin: f64, sds: &Sds, floors: &Floors) -> Likelihood {
    let moved: Vec<Answer> = slopes.iter().zip(sds.run).map(|(slope, sd)| (slope.0 * sd, slope.1 * sd)).collect();
    let speed_sd = moved.iter().map(|m| m.0 * m.0).sum::<f64>().sqrt();
    let push_sd = moved.iter().map(|m| m.1 * m.1).sum::<f64>().sqrt();
    let together = moved.iter().map(|m| m.0 * m.1).sum::<f64>();
    let correlation = if speed_sd * push_sd > 0.0 { together / (speed_sd * push_sd) } else { 0.0 };
    let over = |value: f64, floor: f64, sd: f64| (value - floor) / sd.max(f64::MIN_POSITIVE);
    let (speed, push) = (over(centre.0, floors.exit_speed, speed_sd), over(centre.1, floors.push, push_sd));
    let stable = over(margin, floors.margin, sds.margin);
    let run = both_below(speed.clamp(-30.0, 30.0), push.clamp(-30.0, 30.0), correlation);
    let by_run = |of: fn(&Answer) -> f64| {
        let most = moved.iter().zip(INPUTS).max_by(|a, b| of(a.0).abs().total_cmp(&of(b.0).abs()));
        most.map_or(Input::Thrust, |(_, input)| input)
    };
    let least = speed.min(push).min(stable);
    let most = if least == stable {
        Input::Balance
    } else if least == speed {
        by_run(|moved| moved.0)
    } else {
        by_run(|moved| moved.1)
    };
    Likelihood {
        all: run * below(stable),
        all_at_most_usual: 0.0,
        exit_speed: below(speed),
        margin: below(stable),
        push: below(push),
        exit_speed_sd: speed_sd,
        margin_sd: sds.margin,
        push_sd,
        most,
    }
}

/// How exit speed and push change with each input, thrust and drag as shares: central differences of a per cent, which
/// for these smooth curves is exact to a part in ten thousand.
fn slopes(run: &Run, curve: &ThrustCurve) -> Option<[Answer; 4]> {
    let inputs = run.inputs;
    let by = |change: &dyn Fn(f64) -> (RunInputs, f64), step: f64| {
        let of = |way: f64| {
            let (inputs, thrust) = change(way * step);
            answer(run, curve, &inputs, thrust)
        };
        let (down, up) = (of(-1.0)?, of(1.0)?);
        Some(((up.0 - down.0) / (2.0 * step), (up.1 - down.1) / (2.0 * step)))
    };
    const STEP: f64 = 0.01;
    let thrust = by(&|share| (inputs, 1.0 + share), STEP)?;
    let mass = by(&|more| (RunInputs { mass: inputs.mass + more, ..inputs }, 1.0), STEP * inputs.mass)?;
    let drag = by(&|share| (RunInputs { drag: inputs.drag * (1.0 + share), ..inputs }, 1.0), STEP)?;
    // A frictionless guide can't be given less than none.
    let friction = if inputs.friction > 0.0 {
        let more = |more: f64| (RunInputs { friction: inputs.friction + more, ..inputs }, 1.0);
        by(&more, STEP * inputs.friction)?
    } else {
        (0.0, 0.0)
    };
    Some([thrust, mass, drag, friction])
}

fn answer(run: &Run, curve: &ThrustCurve, inputs: &RunInputs, thrust: f64) -> Option<Answer> {
    let scaled;
    let curve = if thrust == 1.0 {
        curve
    } else {
        scaled = curve.scaled(thrust)?;
        &scaled
    };
    let guided = inputs.on(curve, run.front_travel, run.travel);
    let outcome = guided.run();
    match outcome {
        GuidedOutcome::Leaves { last, .. } => Some((last.speed, push(&guided, &outcome)?)),
        GuidedOutcome::Stays(_) => None,
    }
}
