//! The design file: what the user gives, as typed, with the place of every value.
//!
//! [`Design::TABLES`] lists every key once; reading, ranges, defaults, the JSON Schema, the starter and the table of the
//! manual derive from it.

mod check;
mod choice;
mod draft;
mod key;
mod keys;
mod manual;
mod missing;
mod opening;
mod overrides;
mod quantity;
mod read;
mod rules;
mod schema;
mod setting;
mod starter;
mod syntax;
mod units;
mod value;
mod walk;
mod write;

pub use check::{Raw, folder_safe};
pub use choice::{
    BeltSection, CycleChoice, DxfVersion, GlandKind, Layout, PistonSeal, Projection, RegeneratorKind, Sheet,
    StepSchema, StockShape,
};
pub use draft::{Draft, Opening};
pub use key::{Key, Kind, LONGEST_NAME, LONGEST_TEXT, Presence, Table};
pub use keys::{
    Block, ColdEnd, Cooler, Design, Displacer, Drawings, Drive, Engine, HotEnd, Joints, Limits, Model,
    Outputs, Piston, Seals, StockItem, Targets, Workshop,
};
pub use manual::keys_markdown;
pub use overrides::{check_override, find_key};
pub use quantity::read_quantity;
pub use read::{LARGEST_FILE, read, read_draft};
pub use schema::schema;
pub use setting::{Setting, Source};
pub use starter::starter;
pub use units::{Dimension, ROOM_PA, Unit, round_to};
pub use value::{AllValues, Entry, Given, Value, Values};
pub use write::write_settled;
