//! What every test file needs.

/// Fails unless `got` lies within `tolerance` of `want`.
#[track_caller]
pub fn assert_near(got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "got {got}, want {want} within {tolerance}");
}

/// Fails unless `got` agrees with `want` to a share `tolerance` of it.
#[track_caller]
pub fn assert_close(got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance * want.abs(), "got {got}, want {want} within a share of {tolerance}");
}
