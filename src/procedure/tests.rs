//! Slopes of procedures against differences of their own values.

use super::*;

/// Analytic slopes against central differences of the same value.
#[test]
fn every_procedure_has_true_slopes() {
    let ramp: Vec<f64> = (0..12).map(|i| 1e5 * (1.7 + 0.1 * f64::from(i))).collect();
    let flow: Vec<f64> = (0..12)
        .map(|i| {
            1e-7 * (1.7 + 0.1 * f64::from(i))
                * if i > 8 {
                    1.0 + 0.6 * f64::from(i - 8)
                } else {
                    1.0
                }
        })
        .collect();
    let cases: [(&Procedure, Vec<Vec<f64>>); 15] = [
        (
            &SLOPE,
            vec![vec![0.0, 1.0, 3.0, 4.0], vec![2.0, 2.5, 1.0, 7.0]],
        ),
        (&SMALLEST, vec![vec![3.0, 1.5, 2.0]]),
        (&LARGEST_DEVIATION, vec![vec![0.03, -0.07, 0.05]]),
        (
            &LETHALITY,
            vec![
                vec![60.0, 60.0, 30.0],
                vec![380.0, 393.0, 394.5],
                vec![393.0, 394.4, 394.5004],
                vec![394.25],
                vec![10.0],
            ],
        ),
        (&CROSSING, vec![ramp, flow, vec![1.5], vec![2.3e5]]),
        (&SURVIVORS, vec![vec![30.0], vec![1.0], vec![0.9]]),
        (&POISSON_UPPER, vec![vec![3.0], vec![0.95]]),
        (
            &LINEAR_PART,
            vec![
                vec![1e-4, 2e-4, 3.1e-4, 4e-4],
                vec![2e3, 4.6e3, 8.1e3, 1.2e4],
            ],
        ),
        (
            &QUADRATIC_PART,
            vec![
                vec![1e-4, 2e-4, 3.1e-4, 4e-4],
                vec![2e3, 4.6e3, 8.1e3, 1.2e4],
            ],
        ),
        (&WATER_VISCOSITY, vec![vec![295.0]]),
        (&WATER_DENSITY, vec![vec![295.0]]),
        (
            &CYCLES_SUPPORTED,
            vec![
                vec![0.0, 10.0, 20.0, 30.0, 40.0],
                vec![2.62e5, 2.61e5, 2.585e5, 2.58e5, 2.56e5],
                vec![2.4e5],
                vec![0.95],
                vec![300.0],
            ],
        ),
        (
            &WITHIN,
            vec![
                vec![8.1, 8.3, 8.2, 8.25, 9.1, 9.0],
                vec![1.0, 1.0, 1.0, 2.0, 2.0, 2.0],
            ],
        ),
        (
            &SINGLE,
            vec![
                vec![8.1, 8.15, 8.3, 8.25, 9.1, 9.0, 9.3, 9.25],
                vec![1.0, 1.0, 1.0, 1.0, 2.0, 2.0, 2.0, 2.0],
                vec![1.0, 1.0, 2.0, 2.0, 1.0, 1.0, 2.0, 2.0],
            ],
        ),
        (
            &TIME_ABOVE,
            vec![
                vec![60.0, 60.0, 30.0],
                vec![392.0, 395.0, 393.0],
                vec![395.0, 395.5, 390.0],
                vec![394.0],
            ],
        ),
    ];
    for (procedure, args) in cases {
        let (value, slopes) = procedure.eval(&args).unwrap();
        for i in 0..args.len() {
            for j in 0..args[i].len() {
                let h = match args[i][j] {
                    0.0 => 1e-8,
                    x => 1e-5 * x.abs(),
                };
                let at = |x: f64| {
                    let mut moved = args.clone();
                    moved[i][j] = x;
                    procedure.eval(&moved).map(|found| found.0)
                };
                let (Ok(up), Ok(down)) = (at(args[i][j] + h), at(args[i][j] - h)) else {
                    // A count that is moved is no count: it has no slope.
                    assert_eq!(slopes[i][j], 0.0, "{} [{i}][{j}]", procedure.name);
                    continue;
                };
                let by = (up - down) / (2.0 * h);
                let size = by.abs().max(slopes[i][j].abs()).max(1e-6 * value.abs());
                assert!(
                    (by - slopes[i][j]).abs() < 1e-5 * size,
                    "{} [{i}][{j}]: {by} and {}",
                    procedure.name,
                    slopes[i][j]
                );
            }
        }
    }
}

#[test]
fn the_crossing_lies_between_the_readings_around_it() {
    let p: Vec<f64> = (0..20).map(|i| 1700.0 + 50.0 * f64::from(i)).collect();
    let q: Vec<f64> = p
        .iter()
        .map(|p| {
            if *p < 2500.0 {
                p / 200.0
            } else {
                p / 200.0 + (p - 2500.0) * 0.1
            }
        })
        .collect();
    let (value, _) = CROSSING
        .eval(&[p.clone(), q.clone(), vec![1.5], vec![2200.0]])
        .unwrap();
    assert!(value > 2550.0 && value < 2600.0, "{value}");
    assert!(CROSSING.eval(&[p, q, vec![99.0], vec![2200.0]]).is_err());
}

/// At either end of its range a property has a value on one side only.
#[test]
fn a_slope_at_the_end_of_a_range_is_taken_from_inside() {
    for edge in [253.15, 383.15] {
        let slope = |t: f64| WATER_VISCOSITY.eval(&[vec![t]]).unwrap().1[0][0];
        let inside = if edge < 300.0 {
            edge + 0.01
        } else {
            edge - 0.01
        };
        let (at, near) = (slope(edge), slope(inside));
        assert!((at / near - 1.0).abs() < 0.01, "{edge}: {at} and {near}");
    }
}
