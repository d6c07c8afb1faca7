//! A motor hook lies off the axis, along the outside of its mount.
#![allow(clippy::unwrap_used)]

use crate::common::{assert_close, assessed, but, R1};

/// 2 g at the mount's radius of 9.4 mm add m r² to the roll inertia.
#[test]
fn a_hook_counts_in_roll_inertia() {
    let mount = "mount { bore: 18 mm; outer: 18.8 mm; length: 65 mm; material: paper }";
    let with = |hook: &str| {
        let hooked = format!("mount {{ bore: 18 mm; outer: 18.8 mm; length: 65 mm; material: paper; {hook} }}");
        assessed(&but(R1, mount, &hooked)).1.flights[0].loaded().unwrap()
    };
    let hook = with("hook { length: 75 mm; mass: 2 g; at: -4 mm from back }");
    let bare = assessed(R1).1.flights[0].loaded().unwrap();
    assert_close(hook.i_axial - bare.i_axial, 0.002 * 0.0094 * 0.0094, 1e-6);
    // On a pair of motors whose middles lie 10 mm off the axis: outside of one of them.
    let pair = "mount { motors: 2; circle: 20 mm; bore: 8 mm; outer: 8.8 mm; length: 65 mm; material: paper }";
    let thin = but(R1, mount, pair).replace("diameter: 18 mm", "diameter: 8 mm");
    let hooked = but(
        &thin,
        "material: paper }\n    streamer",
        "material: paper; hook { length: 75 mm; mass: 2 g; at: -4 mm from back } }\n    streamer",
    );
    let axial = |text: &str| assessed(text).1.flights[0].loaded().unwrap().i_axial;
    assert_close(axial(&hooked) - axial(&thin), 0.002 * 0.0144 * 0.0144, 1e-6);
}
