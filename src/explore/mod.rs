//! Sweeps: one or two inputs of a design go over a range, every point is sized.
//!
//! [`Sweep`] evaluates points in parallel and gives a [`Table`] in the order of the points, the same bytes however many
//! threads there are. A large sweep can be split by [`Shard`] and put together by [`merge()`]. [`chart()`] draws a table:
//! curves over one input, lines of equal value over two.

mod axis;
mod chart;
mod contour;
mod curves;
mod hatch;
mod input;
mod levels;
mod merge;
mod output;
mod page;
mod plot;
mod shard;
mod sweep;
mod table;
mod table_text;

pub use chart::{ChartError, chart};
pub use contour::{Grid, contours};
pub use input::{Input, USUAL_STEPS};
pub use merge::{MergeError, merge};
pub use output::{OUTPUTS, Output};
pub use shard::Shard;
pub use sweep::{MOST_POINTS, Sweep};
pub use table::{Column, Mark, Row, Table};
pub use table_text::TableError;
