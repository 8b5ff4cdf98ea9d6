//! The optimiser: differential evolution (R. Storn and K. Price, Journal of Global Optimization 11 (1997) 341) from the
//! `metaheuristics-nature` library, then steps on the workshop's grid from the best place. The random numbers are
//! one stream for each member of the population, so that the answer is the same on any number of threads.

use super::variable::Variable;
use metaheuristics_nature::methods::de::Strategy;
use metaheuristics_nature::{Bounded, De, ObjFunc, Pool, Solver};
use rayon::prelude::*;

/// How long to search.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Effort {
    /// Candidates that live at a time.
    pub population: usize,
    /// Generations at most.
    pub generations: u64,
    /// Generations without a better candidate after which the search ends.
    pub patience: u64,
    /// Seed of the random numbers.
    pub seed: u64,
}

/// A place in the unit cube and its score.
#[derive(Clone, Debug, PartialEq)]
pub struct Best<S> {
    /// Value of each variable, on its grid.
    pub numbers: Vec<f64>,
    /// Its score.
    pub score: S,
}

struct Cube<'a, F> {
    variables: &'a [Variable],
    bounds: Vec<[f64; 2]>,
    score: F,
}

impl<F: Sync + Send> Bounded for Cube<'_, F> {
    fn bound(&self) -> &[[f64; 2]] {
        &self.bounds
    }
}

impl<S, F> ObjFunc for Cube<'_, F>
where
    S: PartialOrd + Clone + Send + Sync + 'static,
    F: Fn(&[f64]) -> S + Sync + Send,
{
    type Ys = S;

    fn fitness(&self, places: &[f64]) -> S {
        let numbers: Vec<f64> = self.variables.iter().zip(places).map(|(v, p)| v.at(*p)).collect();
        (self.score)(&numbers)
    }
}

/// Searches all bounds for the smallest score. `known` candidates are part of the first population.
pub fn search<S, F>(variables: &[Variable], effort: &Effort, known: &[Vec<f64>], score: F) -> Best<S>
where
    S: PartialOrd + Clone + Send + Sync + 'static,
    F: Fn(&[f64]) -> S + Sync + Send,
{
    let cube = Cube { variables, bounds: vec![[0.0, 1.0]; variables.len()], score };
    let (mut best, mut since): (Option<S>, u64) = (None, 0);
    let pool = first_pool(variables, effort, known);
    let pool_y = pool.par_iter().map(|places| cube.fitness(places)).collect();
    let solved = Solver::build(De::new().strategy(Strategy::C2F3).f(0.7).cross(0.9), cube)
        .seed(effort.seed)
        .init_pool(Pool::Ready { pool, pool_y })
        .task(|ctx| {
            let now = ctx.best.get_eval();
            since = if best.as_ref().is_none_or(|best| now < *best) { 0 } else { since + 1 };
            best = Some(now);
            ctx.r#gen >= effort.generations || since >= effort.patience
        })
        .solve();
    let (places, score) = solved.as_best();
    Best { numbers: variables.iter().zip(places).map(|(v, p)| v.at(*p)).collect(), score: score.clone() }
}

/// The first population: the known candidates, and the others spread evenly by the additive recurrence of the
/// generalised golden ratio (M. Roberts 2018, from memory), moved by the seed.
fn first_pool(variables: &[Variable], effort: &Effort, known: &[Vec<f64>]) -> Vec<Vec<f64>> {
    let n = variables.len();
    let ratio = (0..40).fold(2.0_f64, |x, _| (1.0 + x).powf(1.0 / (n as f64 + 1.0)));
    let start = (effort.seed as f64 * 0.618_033_988_749_895).fract();
    let spread =
        |i: usize| (1..=n).map(|k| (start + (i + 1) as f64 / ratio.powi(k as i32)).fract()).collect();
    let placed =
        known.iter().map(|numbers| variables.iter().zip(numbers).map(|(v, x)| v.place(*x)).collect());
    let count = effort.population.max(known.len() + 5);
    placed.chain((0..count - known.len()).map(spread)).collect()
}

/// Steps on the grid of each variable, eight at a time, then four, two and one, while that is better; `most` candidates are
/// tried at the most.
pub fn polish<S, F>(variables: &[Variable], from: Best<S>, most: usize, score: F) -> Best<S>
where
    S: PartialOrd + Clone + Send + Sync,
    F: Fn(&[f64]) -> S + Sync + Send,
{
    let (mut best, mut tried) = (from, 0);
    for steps in [8.0, 4.0, 2.0, 1.0] {
        while tried < most {
            let around = neighbours(variables, &best.numbers, steps);
            tried += around.len();
            let scored: Vec<S> = around.par_iter().map(|numbers| score(numbers)).collect();
            let better = around.into_iter().zip(scored).filter(|(_, score)| *score < best.score);
            let Some((numbers, score)) = better.reduce(|a, b| if b.1 < a.1 { b } else { a }) else { break };
            best = Best { numbers, score };
        }
    }
    best
}

/// Candidates that differ in one variable by so many steps, or in two of the same kind that make room for each other.
fn neighbours(variables: &[Variable], at: &[f64], steps: f64) -> Vec<Vec<f64>> {
    let moved = |moves: &[(usize, f64)]| {
        let mut numbers = at.to_vec();
        for (i, sign) in moves {
            numbers[*i] = variables[*i].snapped(at[*i] + sign * steps * variables[*i].step);
        }
        numbers
    };
    let n = variables.len();
    let single = (0..n).flat_map(|i| [vec![(i, 1.0)], vec![(i, -1.0)]]);
    let pairs = (0..n).flat_map(|i| (i + 1..n).map(move |k| (i, k)));
    let double = pairs.flat_map(|(i, k)| [vec![(i, 1.0), (k, -1.0)], vec![(i, -1.0), (k, 1.0)]]);
    let all = single.chain(double).map(|moves| moved(&moves));
    all.filter(|numbers| numbers != at).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Dimension;

    fn angles(n: usize) -> Vec<Variable> {
        let one = |i| Variable {
            path: format!("a{i}"),
            dimension: Dimension::Angle,
            bounds: [-5.12, 5.12],
            step: 0.01,
            given: true,
        };
        (0..n).map(one).collect()
    }

    fn effort(seed: u64) -> Effort {
        Effort { population: 60, generations: 150, patience: 60, seed }
    }

    /// L. A. Rastrigin's function (1974; from memory): least value 0 at the origin among 10^n hollows.
    fn rastrigin(x: &[f64]) -> f64 {
        x.iter().map(|x| x * x - 10.0 * (std::f64::consts::TAU * x).cos() + 10.0).sum()
    }

    #[test]
    fn the_deepest_of_many_hollows_is_found() {
        let variables = angles(3);
        for seed in 1..=5 {
            let best = search(&variables, &effort(seed), &[], rastrigin);
            let best = polish(&variables, best, 1000, rastrigin);
            assert!(best.score < 1e-9, "seed {seed}: {best:?}");
        }
    }

    /// H. H. Rosenbrock's valley (Computer Journal 3 (1960) 175): least value 0 at (1, 1).
    #[test]
    fn the_bottom_of_a_bent_valley_is_found() {
        let valley = |x: &[f64]| 100.0 * (x[1] - x[0] * x[0]).powi(2) + (1.0 - x[0]).powi(2);
        let variables = angles(2);
        let best = search(&variables, &effort(1), &[], valley);
        let best = polish(&variables, best, 1000, valley);
        assert!(best.numbers.iter().all(|x| (x - 1.0).abs() < 0.015), "{best:?}");
    }

    #[test]
    fn the_same_seed_gives_the_same_answer_on_any_number_of_threads() {
        let on = |threads| {
            let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
            pool.install(|| search(&angles(4), &Effort { generations: 12, ..effort(3) }, &[], rastrigin))
        };
        assert_eq!(on(1), on(2));
        assert_ne!(on(1), search(&angles(4), &Effort { generations: 12, ..effort(4) }, &[], rastrigin));
    }
}
