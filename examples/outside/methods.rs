//! One line a method of the check files on samples: which law of the program answers it.

use sealfolio::stats::{
    Refusal, capability, comparison, endurance, gauge, life, normality, proportion, regression,
    sampling, summary, tolerance,
};
use serde_json::{Map, Value, json};

use crate::statistics::Inputs;

type Found = Result<Value, Refusal>;

/// The program's answer; nothing where it has no such method.
pub fn answer(method: &str, inputs: &Inputs) -> Option<Found> {
    Some(match method {
        "summary" => means(inputs),
        "mean_ci" => mean_interval(inputs),
        "sd_ci" => sd_interval(inputs),
        "linear_fit" => linear_fit(inputs),
        "line_prediction" => line_prediction(inputs),
        "lack_of_fit" => lack_of_fit(inputs),
        "capability_normal" | "capability_data" => indices(method, inputs),
        "capability_subgroups" => of_subgroups(inputs),
        "tolerance_factor_normal" => tolerance_factor(inputs),
        "tolerance_interval_normal" => tolerance_interval(inputs),
        "tolerance_nonparametric_n"
        | "tolerance_nonparametric_confidence"
        | "tolerance_nonparametric_coverage" => free(method, inputs),
        "oc_probability" => accepted(inputs),
        "plan_design" => design(inputs),
        "plan_risk_points" => risk_points(inputs),
        "variables_decision" => by_variables(inputs),
        "variables_oc" => variables_oc(inputs),
        "variables_design" => variables_design(inputs),
        "proportion_ci" => share(inputs),
        "success_run_n" => success_run(inputs),
        "success_run_reliability" => reliability(inputs),
        "poisson_ci" => counted(inputs),
        "poolability" => poolability(inputs),
        "cycles_supported" => cycles(inputs),
        "weibull_mle" => weibull(inputs),
        "weibayes" => known_shape(inputs),
        "kaplan_meier" => survival(inputs),
        "anova_oneway" => anova(inputs),
        "welch_anova" => test(comparison::welch, inputs, "f_statistic"),
        "bartlett" => test(comparison::bartlett, inputs, "statistic"),
        "levene" => levene(inputs),
        "kruskal_wallis" => test(comparison::kruskal_wallis, inputs, "h"),
        "variance_components" => components(inputs),
        "icc" => agreement(inputs),
        "two_sample_t" | "paired_t" => difference(method, inputs),
        "tost_welch" => equivalence(inputs),
        "gauge_rr" => gauge_study(inputs),
        "anderson_darling_normal" => anderson_darling(inputs),
        "shapiro_wilk" => shapiro_wilk(inputs),
        "grubbs" => grubbs(inputs),
        "generalized_esd" => outliers(inputs),
        _ => return None,
    })
}

fn means(i: &Inputs) -> Found {
    let x = i.list("x")?;
    let (mean, sd) = summary::mean_and_sd(&x)?;
    // A correlation of neighbours needs three values; a mean and a spread need two.
    let lag = match x.len() {
        2 if sd > 0.0 => Value::Null,
        _ => summary::lag1_autocorrelation(&x)?.into(),
    };
    Ok(json!({"n": x.len(), "mean": mean, "sd": sd, "lag1_autocorrelation": lag}))
}

fn mean_interval(i: &Inputs) -> Found {
    let x = i.list("x")?;
    let (mean, sd) = summary::mean_and_sd(&x)?;
    let (lower, upper) = summary::mean_interval(&x, i.n("confidence")?)?;
    let error = sd / libm::sqrt(x.len() as f64);
    Ok(json!({"mean": mean, "sd": sd, "standard_error": error, "lower": lower, "upper": upper}))
}

fn sd_interval(i: &Inputs) -> Found {
    let x = i.list("x")?;
    let (_, sd) = summary::mean_and_sd(&x)?;
    let (lower, upper) = summary::sd_interval(&x, i.n("confidence")?)?;
    Ok(json!({"sd": sd, "lower": lower, "upper": upper}))
}

fn linear_fit(i: &Inputs) -> Found {
    let y = i.list("y")?;
    let intercept = i.0["intercept"].as_bool().unwrap_or(true);
    let fit = match i.list("x") {
        Ok(x) => {
            let degree = i.maybe("degree").unwrap_or(1.0) as usize;
            regression::polynomial(&x, &y, degree, intercept)?
        }
        Err(_) => regression::several(&i.lists("x")?, &y, intercept)?,
    };
    let mut out = Map::new();
    let from = usize::from(!intercept);
    for (k, (b, se)) in fit.coefficients.iter().zip(&fit.errors).enumerate() {
        out.insert(format!("b{}", k + from), (*b).into());
        out.insert(format!("se_b{}", k + from), (*se).into());
    }
    for (name, value) in [
        ("residual_sd", fit.s),
        ("r_squared", fit.r_squared),
        ("df_residual", fit.degrees.0),
        ("ss_regression", fit.squares.1),
        ("ss_residual", fit.squares.0),
    ] {
        out.insert(name.into(), value.into());
    }
    out.extend(fit.f().map(|f| ("f_statistic".into(), f.into())));
    Ok(Value::Object(out))
}

fn line_prediction(i: &Inputs) -> Found {
    let line = regression::line(&i.list("x")?, &i.list("y")?)?;
    let x = i.n("x0")?;
    let (mean, next) = line.half_widths(x, i.n("confidence")?)?;
    let fit = line.at(x);
    Ok(
        json!({"fit": fit, "mean_lower": fit - mean, "mean_upper": fit + mean,
        "prediction_lower": fit - next, "prediction_upper": fit + next}),
    )
}

fn lack_of_fit(i: &Inputs) -> Found {
    let degree = i.maybe("degree").unwrap_or(1.0) as usize;
    let (f, df1, df2, p) = regression::lack_of_fit(&i.list("x")?, &i.list("y")?, degree)?;
    Ok(json!({"f_statistic": f, "df1": df1, "df2": df2, "p_value": p}))
}

fn limits(i: &Inputs) -> capability::Limits {
    capability::Limits {
        lower: i.maybe("lsl"),
        upper: i.maybe("usl"),
    }
}

fn indices(method: &str, i: &Inputs) -> Found {
    let confidence = i.maybe("confidence").unwrap_or(0.95);
    let mut out = Map::new();
    let (found, c, cp) = match method {
        "capability_normal" => {
            let n = i.n("n")?;
            let degrees = i.maybe("df").unwrap_or(n - 1.0);
            let (mean, sd) = (i.n("mean")?, i.n("sd")?);
            let found = capability::capability(mean, sd, n, degrees, limits(i), confidence)?;
            (found, "cp", "cp")
        }
        _ => {
            let x = i.list("x")?;
            let (mean, sd) = summary::mean_and_sd(&x)?;
            out.insert("n".into(), x.len().into());
            out.insert("mean".into(), mean.into());
            out.insert("sd".into(), sd.into());
            (
                capability::performance(&x, limits(i), confidence)?,
                "pp",
                "pp",
            )
        }
    };
    let mut put = |name: String, value: f64| {
        out.insert(name, value.into());
    };
    if let (Some(index), Some((lower, upper))) = (found.indices.both, found.both) {
        put(cp.into(), index);
        put(format!("{cp}_lower"), lower);
        put(format!("{cp}_upper"), upper);
    }
    found
        .indices
        .upper
        .into_iter()
        .for_each(|x| put(format!("{c}u"), x));
    found
        .indices
        .lower
        .into_iter()
        .for_each(|x| put(format!("{c}l"), x));
    put(format!("{c}k"), found.indices.nearest);
    put(format!("{c}k_lower_approx"), found.nearest.0);
    put(format!("{c}k_upper_approx"), found.nearest.1);
    put(format!("{c}k_one_sided_exact_lower"), found.proven);
    Ok(Value::Object(out))
}

fn of_subgroups(i: &Inputs) -> Found {
    let found = capability::of_subgroups(&i.lists("subgroups")?, limits(i))?;
    Ok(json!({
        "mean": found.mean, "sigma_within": found.within, "sigma_overall": found.overall,
        "cp": found.short_run.both, "cpk": found.short_run.nearest,
        "cpu": found.short_run.upper, "cpl": found.short_run.lower,
        "pp": found.long_run.both, "ppk": found.long_run.nearest,
        "ppu": found.long_run.upper, "ppl": found.long_run.lower,
    }))
}

fn tolerance_factor(i: &Inputs) -> Found {
    let (n, p, c) = (i.whole("n")? as usize, i.n("coverage")?, i.n("confidence")?);
    Ok(match i.one_sided() {
        true => json!({"k": tolerance::factor_one_sided(n, p, c)?}),
        false => {
            json!({"k": tolerance::factor_two_sided(n, p, c)?, "k_howe_approx": tolerance::factor_howe(n, p, c)?})
        }
    })
}

fn tolerance_interval(i: &Inputs) -> Found {
    let side = match (i.one_sided(), i.word("side")) {
        (true, "upper") => tolerance::Side::Upper,
        (true, _) => tolerance::Side::Lower,
        (false, _) => tolerance::Side::Both,
    };
    let found = tolerance::interval(&i.list("x")?, i.n("coverage")?, i.n("confidence")?, side)?;
    Ok(json!({"k": found.k, "lower": found.lower, "upper": found.upper}))
}

fn free(method: &str, i: &Inputs) -> Found {
    let given = |key: &str, default: u64| match i.maybe(key) {
        Some(_) => i.whole(key),
        None => Ok(default),
    };
    let left_out = given("sides", 2)? + given("discard", 0)?;
    Ok(match method {
        "tolerance_nonparametric_n" => {
            let (n, c) = tolerance::free_sample(left_out, i.n("coverage")?, i.n("confidence")?)?;
            json!({"n": n, "achieved_confidence": c})
        }
        "tolerance_nonparametric_confidence" => {
            json!({"confidence": tolerance::free_confidence(i.whole("n")?, left_out, i.n("coverage")?)?})
        }
        _ => {
            json!({"coverage": tolerance::free_coverage(i.whole("n")?, left_out, i.n("confidence")?)?})
        }
    })
}

fn model(i: &Inputs) -> Result<sampling::Model, Refusal> {
    Ok(match i.word("model") {
        "hypergeometric" => sampling::Model::Hypergeometric {
            lot: i.n("lot_size")?,
        },
        "poisson" => sampling::Model::Poisson,
        _ => sampling::Model::Binomial,
    })
}

fn accepted(i: &Inputs) -> Found {
    let model = model(i)?;
    let quality = match model {
        sampling::Model::Hypergeometric { .. } => i.n("nonconforming")?,
        _ => i.n("p")?,
    };
    let plan = sampling::Plan {
        n: i.n("n")?,
        c: i.n("c")?,
    };
    Ok(json!({"pa": sampling::acceptance(plan, quality, model)?}))
}

fn design(i: &Inputs) -> Found {
    let model = model(i)?;
    let lot = matches!(model, sampling::Model::Hypergeometric { .. });
    let points = sampling::Points {
        good: i.n(if lot { "aql_nonconforming" } else { "aql" })?,
        bad: i.n(if lot { "rql_nonconforming" } else { "rql" })?,
        producer: i.n("alpha")?,
        consumer: i.n("beta")?,
    };
    let plan = sampling::design(points, model)?;
    let pa = |quality| sampling::acceptance(plan, quality, model);
    Ok(json!({"n": plan.n, "c": plan.c, "pa_aql": pa(points.good)?, "pa_rql": pa(points.bad)?}))
}

fn risk_points(i: &Inputs) -> Found {
    let plan = sampling::Plan {
        n: i.n("n")?,
        c: i.n("c")?,
    };
    let mut out = Map::new();
    for pa in i.list("pa")? {
        // Below a ten-thousandth the check files write powers of ten.
        let name = match pa < 1e-4 {
            true => {
                let (digits, power) = format!("{pa:e}")
                    .split_once("e-")
                    .map(|(digits, power)| (digits.to_owned(), power.to_owned()))
                    .unwrap_or_default();
                format!("p_at_pa_{digits}e-{power:0>2}")
            }
            false => format!("p_at_pa_{pa}"),
        };
        let name = name.replace('.', "_");
        out.insert(name, sampling::quality_accepted_at(plan, pa)?.into());
    }
    Ok(Value::Object(out))
}

fn by_variables(i: &Inputs) -> Found {
    let found = sampling::by_variables(&i.list("x")?, i.maybe("lsl"), i.maybe("usl"), i.n("k")?)?;
    Ok(
        json!({"mean": found.mean, "sd": found.sd, "q_lower": found.lower,
        "q_upper": found.upper, "accept": found.accepted}),
    )
}

fn variables_oc(i: &Inputs) -> Found {
    Ok(json!({"pa": sampling::variables_acceptance(i.whole("n")? as usize, i.n("k")?, i.n("p")?)?}))
}

fn variables_design(i: &Inputs) -> Found {
    let (n, least, most) = sampling::variables_design(sampling::Points {
        good: i.n("aql")?,
        bad: i.n("rql")?,
        producer: i.n("alpha")?,
        consumer: i.n("beta")?,
    })?;
    Ok(json!({"n": n, "k_min": least, "k_max": most}))
}

fn share(i: &Inputs) -> Found {
    let (x, n, c) = (i.n("x")?, i.n("n")?, i.n("confidence")?);
    let each = if i.one_sided() { c } else { 0.5 * (1.0 + c) };
    let (lower, upper) = (
        proportion::share_lower(x, n, each)?,
        proportion::share_upper(x, n, each)?,
    );
    let (low, high) = proportion::share_score(x, n, c)?;
    Ok(match i.one_sided() {
        true => json!({"p_hat": x / n, "lower_one_sided": lower, "upper_one_sided": upper}),
        false => {
            json!({"p_hat": x / n, "lower": lower, "upper": upper, "wilson_lower": low, "wilson_upper": high})
        }
    })
}

fn success_run(i: &Inputs) -> Found {
    let (c, r) = (i.n("confidence")?, i.n("reliability")?);
    let (n, achieved) = proportion::success_run(c, r, i.maybe("failures").unwrap_or(0.0))?;
    Ok(
        json!({"n": n, "achieved_confidence": achieved, "n_real": proportion::success_run_unrounded(c, r)?}),
    )
}

fn reliability(i: &Inputs) -> Found {
    let found = proportion::reliability_lower(i.n("n")?, i.n("failures")?, i.n("confidence")?)?;
    Ok(json!({"reliability_lower": found}))
}

fn counted(i: &Inputs) -> Found {
    let (count, c) = (i.n("count")?, i.n("confidence")?);
    let extent = i.maybe("exposure").unwrap_or(1.0);
    let each = if i.one_sided() { c } else { 0.5 * (1.0 + c) };
    // Half of what lies beyond is a probability too where the whole is none.
    proportion::poisson_upper(count, c)?;
    let bounds = (
        proportion::poisson_lower(count, each)?,
        proportion::poisson_upper(count, each)?,
    );
    let extent = proportion::exposure(extent)?;
    let (rate, lower, upper) = (count / extent, bounds.0 / extent, bounds.1 / extent);
    Ok(match i.one_sided() {
        true => json!({"rate": rate, "lower_one_sided": lower, "upper_one_sided": upper}),
        false => json!({"rate": rate, "lower": lower, "upper": upper}),
    })
}

fn courses(i: &Inputs) -> Result<Vec<endurance::Course>, Refusal> {
    let lots = i.0["lots"].as_array().cloned().unwrap_or_default();
    lots.iter()
        .map(|lot| {
            let lot = Inputs(lot);
            Ok(endurance::Course {
                x: lot.list("x")?,
                y: lot.list("y")?,
            })
        })
        .collect()
}

fn poolability(i: &Inputs) -> Found {
    let found = endurance::poolability(&courses(i)?)?;
    Ok(json!({
        "f_slopes": found.slopes.0, "p_slopes": found.slopes.1,
        "f_intercepts": found.starts.0, "p_intercepts": found.starts.1,
        "df1": found.degrees.0, "df2": found.degrees.1,
        "sse_separate": found.squares[0], "sse_common_slope": found.squares[1], "sse_common_line": found.squares[2],
        "model": found.model.words(),
    }))
}

fn cycles(i: &Inputs) -> Found {
    let limit = i.n("limit")?;
    let question = endurance::Question {
        limit: match i.word("side") {
            "upper" => endurance::Limit::Upper(limit),
            _ => endurance::Limit::Lower(limit),
        },
        confidence: i.n("confidence")?,
        of: match i.word("bound") {
            "prediction" => endurance::Of::Prediction,
            _ => endurance::Of::Mean,
        },
        most: i.maybe("search_max").unwrap_or(f64::INFINITY),
    };
    let found = endurance::supported(&courses(i)?, question)?;
    Ok(json!({
        "per_lot": found.each, "separate_lines": found.separate, "separate_lines_pooled_mse": found.separate_pooled,
        "common_slope": found.common_slope, "common_line": found.common_line,
    }))
}

fn weibull(i: &Inputs) -> Found {
    let found = life::weibull(&i.list("times")?, &i.flags("events")?)?;
    let (c, p) = (i.n("confidence")?, i.maybe("p").unwrap_or(0.1));
    let (shape, scale) = (found.shape_bounds(c)?, found.scale_bounds(c)?);
    let b = found.life_bounds(p, c)?;
    Ok(json!({
        "shape": found.shape, "scale": found.scale, "log_likelihood": found.log_likelihood,
        "shape_lower": shape.0, "shape_upper": shape.1, "scale_lower": scale.0, "scale_upper": scale.1,
        "b_life": found.life(p)?, "b_life_lower": b.0, "b_life_upper": b.1,
        "b_life_one_sided_lower": found.life_lower(p, c)?,
    }))
}

fn known_shape(i: &Inputs) -> Found {
    let found = life::known_shape(
        &i.list("times")?,
        i.n("failures")?,
        i.n("shape")?,
        i.n("confidence")?,
    )?;
    let mut out = json!({"scale_lower": found.scale_lower, "b_life_lower": found.life_lower(i.maybe("p").unwrap_or(0.1))?});
    if let Some(scale) = found.scale {
        out["scale"] = scale.into();
    }
    Ok(out)
}

fn survival(i: &Inputs) -> Found {
    let steps = life::survival(&i.list("times")?, &i.flags("events")?)?;
    let all = |f: fn(&life::Step) -> Value| steps.iter().map(f).collect::<Vec<Value>>();
    let median = steps.iter().find(|step| step.survival <= 0.5);
    Ok(json!({
        "times": all(|step| step.time.into()), "survival": all(|step| step.survival.into()),
        "greenwood_se": all(|step| step.error.into()), "median": median.map(|step| step.time),
    }))
}

fn anova(i: &Inputs) -> Found {
    let found = comparison::anova(&i.lists("groups")?)?;
    Ok(json!({
        "ss_between": found.squares.0, "ss_within": found.squares.1,
        "df_between": found.degrees.0, "df_within": found.degrees.1,
        "f_statistic": found.f, "p_value": found.p,
        "residual_sd": found.residual_sd(), "r_squared": found.r_squared(),
    }))
}

fn test(of: fn(&[Vec<f64>]) -> Result<comparison::Test, Refusal>, i: &Inputs, name: &str) -> Found {
    let found = of(&i.lists("groups")?)?;
    Ok(
        json!({name: found.statistic, "df": found.degrees.0, "df1": found.degrees.0,
        "df2": found.degrees.1, "p_value": found.p}),
    )
}

fn levene(i: &Inputs) -> Found {
    let centre = match i.word("center") {
        "mean" => comparison::Centre::Mean,
        _ => comparison::Centre::Median,
    };
    let found = comparison::levene(&i.lists("groups")?, centre)?;
    Ok(json!({"statistic": found.statistic, "p_value": found.p}))
}

fn components(i: &Inputs) -> Found {
    let found = comparison::components(&i.lists("groups")?)?;
    Ok(json!({
        "ms_between": found.mean_squares.0, "ms_within": found.mean_squares.1, "n0": found.size,
        "var_within": found.within, "var_between_raw": found.between_raw, "var_between": found.between(),
        "icc1": found.icc,
    }))
}

fn agreement(i: &Inputs) -> Found {
    let found = comparison::agreement(&i.lists("ratings")?)?;
    let ([a, b, c], [ak, bk, ck]) = (found.single, found.mean);
    Ok(json!({"icc1": a, "icc2": b, "icc3": c, "icc1k": ak, "icc2k": bk, "icc3k": ck}))
}

fn difference(method: &str, i: &Inputs) -> Found {
    let (a, b) = (i.list("a")?, i.list("b")?);
    let found = match method {
        "paired_t" => comparison::pairs(&a, &b)?,
        _ => {
            let one = i.0["equal_variance"].as_bool().unwrap_or(false);
            comparison::two_means(&a, &b, one)?
        }
    };
    let (lower, upper) = found.bounds(i.maybe("confidence").unwrap_or(0.95))?;
    Ok(
        json!({"t": found.t, "df": found.degrees, "p_value": found.p, "diff": found.difference,
        "lower": lower, "upper": upper}),
    )
}

fn equivalence(i: &Inputs) -> Found {
    let (a, b) = (i.list("a")?, i.list("b")?);
    let (found, low, high, p) = comparison::equivalence(&a, &b, i.n("low")?, i.n("high")?)?;
    Ok(json!({"t_low": low, "t_high": high, "df": found.degrees, "p_value": p}))
}

fn gauge_study(i: &Inputs) -> Found {
    let parts = i.0["values"].as_array().cloned().unwrap_or_default();
    let values = parts
        .iter()
        .map(|part| Inputs(&json!({"v": part})).lists("v"))
        .collect::<Result<Vec<_>, _>>()?;
    let study = gauge::study(&values, i.maybe("alpha_interaction").unwrap_or(0.25))?;
    let [part, operator, both, repeats] = study.squares;
    let mut out = json!({
        "ss_part": part, "ss_operator": operator, "ss_interaction": both, "ss_repeatability": repeats,
        "f_interaction": study.interaction.0, "p_interaction": study.interaction.1, "pooled": study.pooled,
        "var_repeatability": study.repeatability, "var_operator": study.operator, "var_interaction": study.both,
        "var_reproducibility": study.operator + study.both, "var_grr": study.measurement(), "var_part": study.part,
        "var_total": study.total(), "pct_study_variation_grr": 100.0 * study.share(),
        "pct_contribution_grr": 100.0 * study.measurement() / study.total(), "ndc": study.categories(),
    });
    if let Some(tolerance) = i.maybe("tolerance") {
        out["pct_tolerance_grr"] = (100.0 * study.of_tolerance(tolerance)).into();
    }
    Ok(out)
}

fn anderson_darling(i: &Inputs) -> Found {
    let found = normality::anderson_darling(&i.list("x")?)?;
    Ok(json!({"a2": found.a2, "a2_adjusted": found.adjusted, "p_value": found.p}))
}

fn shapiro_wilk(i: &Inputs) -> Found {
    let (w, p) = normality::shapiro_wilk(&i.list("x")?)?;
    Ok(json!({"w": w, "p_value": p}))
}

fn grubbs(i: &Inputs) -> Found {
    let end = match (i.one_sided(), i.word("side")) {
        (false, _) => normality::End::Either,
        (true, "min") => normality::End::Smallest,
        (true, _) => normality::End::Largest,
    };
    let found = normality::grubbs(&i.list("x")?, i.n("alpha")?, end)?;
    Ok(
        json!({"g": found.g, "index": found.index + 1, "critical": found.critical,
        "p_value": found.p, "outlier": found.outlier()}),
    )
}

fn outliers(i: &Inputs) -> Found {
    let found = normality::outliers(
        &i.list("x")?,
        i.whole("max_outliers")? as usize,
        i.n("alpha")?,
    )?;
    let removed: Vec<usize> = found.taken[..found.count].iter().map(|i| i + 1).collect();
    Ok(
        json!({"r": found.r, "lambda_": found.critical, "outliers": found.count, "removed": removed}),
    )
}
