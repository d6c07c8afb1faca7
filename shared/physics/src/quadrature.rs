//! Definite integrals by composite Gauss–Legendre quadrature.

/// Integrates several functions at once over `[a, b]`, in `panels` equal parts of 16 points each.
///
/// Exact to rounding for polynomials up to degree 31 on each panel.
/// Source: Gauss–Legendre nodes and weights, Abramowitz & Stegun, table 25.4 (from memory).
pub fn integrate<const N: usize>(a: f64, b: f64, panels: u32, f: impl Fn(f64) -> [f64; N]) -> [f64; N] {
    let mut sum = [0.0; N];
    let half = 0.5 * (b - a) / f64::from(panels);
    for panel in 0..panels {
        let middle = a + half * f64::from(2 * panel + 1);
        for (node, weight) in GAUSS_16 {
            let left = f(middle - half * node);
            let right = f(middle + half * node);
            for i in 0..N {
                sum[i] += weight * half * (left[i] + right[i]);
            }
        }
    }
    sum
}

/// Positive nodes and their weights on `[-1, 1]`.
const GAUSS_16: [(f64, f64); 8] = [
    (0.095_012_509_837_637_44, 0.189_450_610_455_068_5),
    (0.281_603_550_779_258_9, 0.182_603_415_044_923_59),
    (0.458_016_777_657_227_39, 0.169_156_519_395_002_54),
    (0.617_876_244_402_643_8, 0.149_595_988_816_576_73),
    (0.755_404_408_355_003, 0.124_628_971_255_533_87),
    (0.865_631_202_387_831_8, 0.095_158_511_682_492_78),
    (0.944_575_023_073_232_6, 0.062_253_523_938_647_89),
    (0.989_400_934_991_649_9, 0.027_152_459_411_754_095),
];
