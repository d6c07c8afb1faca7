//! Motors' codes against their curves, and fields' limits against flights.
#![allow(clippy::unwrap_used)]

use crate::common::{assert_close, assessed, but, R1};
use finwright_assess::field_rules::{
    exceeded, limits, named, Bounds, Class, Facts, Jurisdiction, Limit, Limited, MotorFacts, Standing, JURISDICTIONS,
};
use finwright_assess::path;
use finwright_model::read_code;
use proptest::prelude::*;

/// NFPA 1125 [mem]: 4.8 N s is a B; 8 N is not within a fifth or 1 N of 6 N.
#[test]
fn a_code_and_its_curve() {
    let coded = |code: &str| {
        let (_, assessment) = assessed(&but(R1, "motor even {", &format!("motor even {{ code: \"{code}\";")));
        assessment.airframe.motors[0].clone().unwrap()
    };
    let right = coded("B8-4");
    assert_close(right.impulse, 4.8, 1e-12);
    assert_close(right.average, 8.0, 1e-12);
    assert_close(right.burn_time, 0.6, 1e-12);
    assert_eq!(right.class.unwrap().letter, "B");
    assert_eq!(
        (right.letter_agrees(), right.average_agrees(), right.delay_agrees()),
        (Some(true), Some(true), Some(true))
    );
    let wrong = coded("C6-3");
    assert_eq!(
        (wrong.letter_agrees(), wrong.average_agrees(), wrong.delay_agrees()),
        (Some(false), Some(false), Some(false))
    );
    let (_, bare) = assessed(R1);
    let bare = bare.airframe.motors[0].clone().unwrap();
    assert_eq!((bare.letter_agrees(), bare.average_agrees(), bare.delay_agrees()), (None, None, None));
}

#[test]
fn codes() {
    let half = read_code("1/2A3-2").unwrap();
    assert_eq!((half.letter.as_str(), half.average, half.delay), ("1/2A", 3.0, Some(2.0)));
    let plugged = read_code("H110").unwrap();
    assert_eq!((plugged.letter.as_str(), plugged.average, plugged.delay), ("H", 110.0, None));
    assert!(read_code("").is_none() && read_code("big one").is_none() && read_code("D").is_none());
}

/// A small rocket that meets every code: one motor of 100 N s.
fn small() -> Facts {
    let motor = MotorFacts {
        name: "g40".to_string(),
        impulse: Bounds::exactly(100.0),
        average_thrust: Bounds::exactly(40.0),
        propellant: Bounds::exactly(0.05),
    };
    Facts {
        mass: Bounds::exactly(1.2),
        propellant: motor.propellant,
        impulse: motor.impulse,
        average_thrust: motor.average_thrust,
        motors: vec![motor],
        is_complex: Some(false),
        tilt: Bounds::exactly(0.05),
        wind: Bounds::exactly(3.0),
        apogee: Bounds::exactly(400.0),
        field: Bounds::exactly(500.0),
        standoff: Bounds::exactly(500.0),
        densest: Bounds::exactly(680.0),
    }
}

/// One motor that holds so many newton-seconds.
fn with_impulse(impulse: f64) -> Facts {
    let mut facts = small();
    (facts.impulse, facts.motors[0].impulse) = (Bounds::exactly(impulse), Bounds::exactly(impulse));
    facts
}

fn beyond(name: &str, facts: &Facts) -> Vec<Limited> {
    exceeded(named(name).unwrap(), facts).iter().map(|limit| limit.what).collect()
}

fn limit(name: &str, facts: &Facts, wanted: fn(&Limited) -> bool) -> Limit {
    limits(named(name).unwrap(), facts).into_iter().find(|limit| wanted(&limit.what)).unwrap()
}

fn of_people(what: &Limited) -> bool {
    what.is_of_people()
}

fn of_field(what: &Limited) -> bool {
    *what == Limited::Field
}

/// How far people must stand, by the strictest row that could hold.
fn distance(name: &str, facts: &Facts) -> f64 {
    limit(name, facts, of_people).asked
}

/// 14 CFR 101.22 [std]: 1,500 g and 125 g. NFPA 1122 [std, reprint]: 320 N s, 30 degrees, and 1,000 ft for a G.
#[test]
fn limits_by_jurisdiction() {
    for (name, jurisdiction, _) in JURISDICTIONS {
        assert_eq!(named(name), Some(jurisdiction));
        let all = limits(jurisdiction, &small());
        assert!(all.iter().all(|limit| limit.standing() == Standing::Met), "{name}: {all:?}");
        assert!(all.iter().all(|l| !l.source.is_empty() && l.asked > 0.0));
        assert!(!jurisdiction.not_included().is_empty());
    }
    assert_eq!(named("elsewhere"), None);
    let with = |change: fn(&mut Facts)| {
        let mut facts = small();
        change(&mut facts);
        facts
    };
    assert_eq!(beyond("us-class-1", &with(|f| f.mass = Bounds::exactly(1.501))), [Limited::Mass]);
    assert_eq!(beyond("us-class-1", &with(|f| f.propellant = Bounds::exactly(0.1251))), [Limited::Propellant]);
    assert_eq!(beyond("us-model", &with(|f| f.field = Bounds::exactly(304.0))), [Limited::Field]);
    assert!(beyond("us-model", &with(|f| f.field = Bounds::exactly(305.0))).is_empty());
    assert_eq!(beyond("us-model", &with(|f| f.wind = Bounds::exactly(9.0))), [Limited::Wind]);
    let steep = with(|f| f.tilt = Bounds::exactly(21f64.to_radians()));
    assert!(beyond("us-model", &steep).is_empty());
    assert_eq!(beyond("us-high-power", &steep), [Limited::Tilt]);
    assert_eq!(beyond("california-experimental", &steep), [Limited::Tilt]);
}

/// A model motor's own limits [mem]: 160 N s, 80 N, 62.5 g. One beyond them is high power, with the distances of that:
/// 100 ft and 1,500 ft [reprint].
#[test]
fn a_motor_beyond_a_models_is_high_power() {
    let of_motor = |change: fn(&mut MotorFacts)| {
        let mut facts = small();
        change(&mut facts.motors[0]);
        facts
    };
    assert_eq!(small().class(), Some(Class::Model));
    for (facts, what) in [
        (with_impulse(160.1), Limited::MotorImpulse),
        (of_motor(|m| m.average_thrust = Bounds::exactly(80.1)), Limited::MotorThrust),
        (of_motor(|m| m.propellant = Bounds::exactly(0.0626)), Limited::MotorPropellant),
    ] {
        assert_eq!(facts.class(), Some(Class::HighPower));
        assert_eq!(beyond("us-model", &facts), [what]);
        assert_close(distance("us-model", &facts), 30.48, 1e-12);
        assert_close(limit("us-model", &facts, of_field).asked, 457.2, 1e-12);
    }
    let unknown = of_motor(|m| m.average_thrust = Bounds::UNKNOWN);
    assert_eq!(unknown.class(), None);
    assert_close(distance("us-model", &unknown), 30.48, 1e-12);
    // Two of 160 N s are within the 320 N s of a model rocket.
    let mut two = with_impulse(160.0);
    (two.impulse, two.is_complex) = (Bounds::exactly(320.0), Some(true));
    assert!(beyond("us-model", &two).is_empty());
    assert_close(distance("us-model", &two), 9.144, 1e-12);
    two.impulse = Bounds::exactly(320.1);
    assert_eq!(beyond("us-model", &two), [Limited::Impulse]);
}

/// Metal in nose, body or fins: 14 CFR 101.22(a)(4) [std], NFPA 1122 4.2.1 [reprint]; 19 CCR 1032(b)(1) [std] allows
/// aluminium.
#[test]
fn metal() {
    let of = |density: f64| Facts { densest: Bounds::exactly(density), ..small() };
    for code in ["us-class-1", "us-model"] {
        assert_eq!(beyond(code, &of(2700.0)), [Limited::Metal], "{code}: aluminium");
        assert!(beyond(code, &of(2000.0)).is_empty(), "{code}: glass laminate");
    }
    assert!(beyond("california-experimental", &of(2700.0)).is_empty());
    assert_eq!(beyond("california-experimental", &of(7850.0)), [Limited::Metal]);
}

/// NFPA 1127 [reprint]: 100 ft to 1,280 N s and 200 ft above, 200 and 300 ft for a cluster; half the height or 1,500
/// ft. [mem]: thrust of three times the weight.
#[test]
fn high_power() {
    let j = Facts { mass: Bounds::exactly(6.0), average_thrust: Bounds::exactly(170.0), ..with_impulse(1000.0) };
    let code = "us-high-power";
    assert_close(distance(code, &j), 100.0 * 0.3048, 1e-12);
    assert_close(distance(code, &with_impulse(1281.0)), 200.0 * 0.3048, 1e-12);
    assert_close(distance(code, &Facts { is_complex: Some(true), ..j.clone() }), 200.0 * 0.3048, 1e-12);
    assert_close(distance(code, &Facts { is_complex: None, ..j.clone() }), 200.0 * 0.3048, 1e-12);
    let weak = exceeded(named(code).unwrap(), &j);
    assert_eq!(weak[0].what, Limited::ThrustToWeight);
    assert_close(weak[0].value.known().unwrap(), 170.0 / (6.0 * 9.80665), 1e-12);
    let field = |apogee: Bounds, across: f64| {
        let facts = Facts { apogee, field: Bounds::exactly(across), ..small() };
        let found = limit(code, &facts, of_field);
        (found.asked, found.standing())
    };
    assert_eq!(field(Bounds::exactly(1200.0), 599.0), (600.0, Standing::Exceeded));
    assert_eq!(field(Bounds::exactly(400.0), 457.2), (457.2, Standing::Met));
    // Without the height the floor still holds, and more may be asked for.
    assert_eq!(field(Bounds::UNKNOWN, 457.0), (457.2, Standing::Exceeded));
    assert_eq!(field(Bounds::UNKNOWN, 2000.0), (457.2, Standing::NotKnown));
}

/// 14 CFR 101.22(b) [std]: 40,960 N s are the most of a class 2 rocket, and the tables end there.
#[test]
fn above_the_last_row_nothing_passes() {
    let huge = with_impulse(48_875.0);
    assert_eq!(beyond("us-class-2", &huge), [Limited::Impulse]);
    assert_eq!(beyond("us-high-power", &huge), [Limited::Impulse]);
    let people = limit("us-high-power", &huge, of_people);
    assert_eq!((people.asked, people.standing()), (457.2, Standing::NotKnown));
    let near = Facts { standoff: Bounds::exactly(3.0), ..huge };
    assert_eq!(limit("us-high-power", &near, of_people).standing(), Standing::Exceeded);
}

/// 19 CCR 1032(a) [std]: 10,240 N s a motor, 20,480 in all. 1036 [std]: 150 ft to 1,280 N s; a cluster takes the next
/// row, and above the last one the text has none.
#[test]
fn california() {
    let code = "california-experimental";
    let cluster = |impulse: f64| Facts { is_complex: Some(true), impulse: Bounds::exactly(impulse), ..small() };
    assert_close(distance(code, &with_impulse(1000.0)), 150.0 * 0.3048, 1e-12);
    assert_close(distance(code, &cluster(1000.0)), 200.0 * 0.3048, 1e-12);
    assert_eq!(limit(code, &cluster(15_000.0), of_people).standing(), Standing::NotKnown);
    assert_eq!(beyond(code, &with_impulse(10_241.0)), [Limited::MotorImpulse]);
    assert_eq!(beyond(code, &cluster(20_481.0)), [Limited::Impulse]);
}

/// 14 CFR 101.25(g) [std]: a quarter of the height, at least 457 m, whatever the height.
#[test]
fn separation_by_height() {
    let of = |apogee: Bounds, standoff: f64| {
        let facts = Facts { apogee, standoff: Bounds::exactly(standoff), ..small() };
        let found = limit("us-class-2", &facts, of_people);
        (found.asked, found.standing())
    };
    assert_eq!(of(Bounds::exactly(800.0), 457.0), (457.0, Standing::Met));
    assert_eq!(of(Bounds::exactly(4000.0), 999.0), (1000.0, Standing::Exceeded));
    assert_eq!(of(Bounds::UNKNOWN, 456.0), (457.0, Standing::Exceeded));
    assert_eq!(of(Bounds::UNKNOWN, 5000.0), (457.0, Standing::NotKnown));
}

/// An input of a flight, and whether more of it is the worse.
type Input = (&'static str, bool, fn(&mut Facts) -> Option<&mut Bounds>);

const INPUTS: [Input; 12] = [
    ("mass", true, |f| Some(&mut f.mass)),
    ("propellant", true, |f| Some(&mut f.propellant)),
    ("impulse", true, |f| Some(&mut f.impulse)),
    ("average thrust", false, |f| Some(&mut f.average_thrust)),
    ("tilt", true, |f| Some(&mut f.tilt)),
    ("wind", true, |f| Some(&mut f.wind)),
    ("height", true, |f| Some(&mut f.apogee)),
    ("field", false, |f| Some(&mut f.field)),
    ("people", false, |f| Some(&mut f.standoff)),
    ("density", true, |f| Some(&mut f.densest)),
    ("a motor's impulse", true, |f| f.motors.first_mut().map(|m| &mut m.impulse)),
    ("a motor's propellant", true, |f| f.motors.first_mut().map(|m| &mut m.propellant)),
];

/// Facts that are known, from far below every limit to far above.
fn facts() -> impl Strategy<Value = Facts> {
    let number = || prop_oneof![Just(0.0), 1e-3..2.0f64, 1.0..500.0f64, 100.0..60_000.0f64].prop_map(Bounds::exactly);
    let motor = (number(), number(), number()).prop_map(|(impulse, average_thrust, propellant)| MotorFacts {
        name: "m".to_string(),
        impulse,
        average_thrust,
        propellant,
    });
    let first = (number(), number(), number(), number(), number(), number());
    let second = (number(), number(), number(), number());
    (first, second, any::<bool>(), prop::collection::vec(motor, 1..3)).prop_map(|(a, b, complex, motors)| Facts {
        mass: a.0,
        propellant: a.1,
        impulse: a.2,
        average_thrust: a.3,
        tilt: a.4,
        wind: a.5,
        apogee: b.0,
        field: b.1,
        standoff: b.2,
        densest: b.3,
        is_complex: Some(complex),
        motors,
    })
}

fn passes(code: Jurisdiction, facts: &Facts) -> bool {
    limits(code, facts).iter().all(|limit| limit.standing() == Standing::Met)
}

/// Nothing that is asked for becomes milder, and what didn't pass doesn't pass.
fn is_no_milder(code: Jurisdiction, before: &Facts, after: &Facts) -> Result<(), String> {
    for (old, new) in limits(code, before).iter().zip(limits(code, after)) {
        let eased = if old.is_most { new.limit.least > old.limit.least } else { new.limit.most < old.limit.most };
        if old.what != new.what || eased {
            return Err(format!("{:?}: {:?} became {:?}", old.what, old.limit, new.limit));
        }
    }
    if passes(code, after) && !passes(code, before) {
        return Err(format!("{before:?} doesn't pass, and {after:?} does"));
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 512, failure_persistence: None, ..ProptestConfig::default() })]

    /// Each input made unknown, or so great that it's beyond every table, makes no code milder.
    #[test]
    fn what_is_unknown_or_huge_makes_no_code_milder(facts in facts()) {
        for (_, code, _) in JURISDICTIONS {
            let mut changed: Vec<(String, Facts)> = Vec::new();
            for (name, more_is_worse, of) in INPUTS {
                for value in [Bounds::UNKNOWN, Bounds::exactly(1e9)] {
                    let mut other = facts.clone();
                    *of(&mut other).unwrap() = value;
                    if more_is_worse || value == Bounds::UNKNOWN {
                        changed.push((format!("{name}: {value:?}"), other));
                    }
                }
            }
            changed.push(("no motor known".to_string(), Facts { motors: Vec::new(), ..facts.clone() }));
            changed.push(("stages not known".to_string(), Facts { is_complex: None, ..facts.clone() }));
            for (name, other) in changed {
                let found = is_no_milder(code, &facts, &other);
                prop_assert!(found.is_ok(), "{code:?}, {name}: {}", found.unwrap_err());
            }
        }
    }

    /// What nothing is known of passes no code.
    #[test]
    fn a_flight_that_says_nothing_passes_no_code(complex in any::<Option<bool>>()) {
        let nothing = Facts { is_complex: complex, ..Facts::default() };
        prop_assert!(JURISDICTIONS.iter().all(|(_, code, _)| !passes(*code, &nothing)));
    }
}

/// What is known of R1, and what its file can't say.
#[test]
fn facts_of_a_flight() {
    let (design, assessment) = assessed(R1);
    let numbers = &assessment.flights[0];
    let facts = Facts::of(&design, numbers, path(&design, &assessment.airframe, numbers).ok());
    assert_close(facts.mass.known().unwrap(), 0.039957488, 1e-7);
    assert_close(facts.propellant.known().unwrap(), 0.006, 1e-12);
    assert_close(facts.impulse.known().unwrap(), 4.8, 1e-12);
    assert_close(facts.tilt.known().unwrap(), 5f64.to_radians(), 1e-12);
    assert_eq!((facts.wind, facts.is_complex), (Bounds::exactly(5.0), Some(false)));
    assert_eq!((facts.field, facts.standoff), (Bounds::UNKNOWN, Bounds::UNKNOWN));
    // Kraft paper of 680 kg/m3 is the densest.
    assert_eq!((facts.class(), facts.densest), (Some(Class::Model), Bounds::exactly(680.0)));
    assert!(exceeded(named("us-model").unwrap(), &facts).is_empty());
    // 4.8 N s is a B: 200 ft of field, 15 ft to the people [reprint], neither known.
    let all = limits(named("us-model").unwrap(), &facts);
    let open: Vec<f64> = all.iter().filter(|l| l.standing() == Standing::NotKnown).map(|l| l.asked).collect();
    assert_eq!(open, [4.572, 60.96]);
}

/// Without its curve a motor holds what its label says at most; without either, nothing bounds it.
#[test]
fn facts_of_a_flight_that_says_less() {
    let of = |text: &str| {
        let (design, assessment) = assessed(text);
        Facts::of(&design, &assessment.flights[0], None)
    };
    let curve = "; curve: [0 s: 8 N, 0.6 s: 8 N]";
    let labelled = of(&but(&but(R1, curve, ""), "motor even {", "motor even { code: \"B8-4\";"));
    assert_eq!(labelled.impulse, Bounds { least: 2.5, most: 5.0 });
    assert_eq!(labelled.class(), Some(Class::Model));
    let bare = of(&but(R1, curve, ""));
    assert_eq!((bare.impulse, bare.class()), (Bounds::UNKNOWN, None));
    assert_eq!(of(&but(R1, " propellant: 6 g;", "")).propellant, Bounds::UNKNOWN);
    // Still air is what is computed with where a site gives no wind, and no code is met by it.
    assert_eq!(of(&but(R1, "{ wind: 5 m/s; gust: 8.94 m/s }", "{ elevation: 3 m }")).wind, Bounds::UNKNOWN);
    assert_eq!(of(&but(R1, "base: 24.8 mm; material: light", "base: 24.8 mm; mass: 4 g")).densest.most, f64::INFINITY);
    let three =
        of(&but(R1, "length: 65 mm; material: paper", "length: 65 mm; material: paper; motors: 3; circle: 5 mm"));
    assert_eq!((three.impulse.known().map(|i| (i * 1e6).round()), three.is_complex), (Some(14.4e6), Some(true)));
    assert_close(three.motors[0].impulse.known().unwrap(), 4.8, 1e-12);
}
