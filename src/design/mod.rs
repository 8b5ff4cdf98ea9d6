//! The design file: what the user gives, as typed, with the place of every value; and the shelf file beside it.
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
mod on_shelf;
mod opening;
mod overrides;
mod quantity;
mod read;
mod rules;
mod rules_work;
mod schema;
mod setting;
mod shelf;
mod spread;
mod starter;
mod syntax;
mod units;
mod value;
mod walk;
mod write;

pub use check::{Raw, folder_safe};
pub use choice::{
    BeltSection, ColdSeal, CycleChoice, DxfVersion, GlandKind, Layout, LoadKind, PistonSeal, Projection,
    RegeneratorKind, Sheet, StepSchema, StockShape, TemplatePaper, Units,
};
pub use draft::{Draft, Opening};
pub use key::{Key, Kind, LONGEST_LABEL, LONGEST_NAME, LONGEST_TEXT, List, Presence, Table};
pub use keys::{
    Accepted, Block, Checks, ColdEnd, Cooler, Design, Displacer, Drawings, Drive, Engine, Flywheel, HotEnd,
    Joints, Limits, Load, Model, Outputs, Piston, Seals, Spreads, StockItem, Targets, Workshop,
};
pub use manual::keys_markdown;
pub use overrides::{check_override, find_key, unquoted};
pub use quantity::read_quantity;
pub use read::{LARGEST_FILE, read, read_draft, read_draft_with, read_with, shelf_named};
pub use schema::{schema, shelf_schema};
pub use setting::{Setting, Source};
pub use shelf::{SHELF, Shelf, read_shelf};
pub use spread::{Spread, read_spread};
pub use starter::{shelf_starter, starter};
pub use units::{Dimension, ROOM_PA, Unit, round_to};
pub use value::{AllValues, Entry, Given, Value, Values};
pub use write::write_settled;
