//! STEP files (ISO 10303-21): one part, or an assembly in which every instance is named and placed.
//!
//! AP214 by default, since it is read most widely; AP242 on request. Millimetres and radians. The same
//! input gives the same bytes.

mod brep;
mod product;
mod text;

use crate::parts::part::{Instance, Part};
use crate::parts::setups::SetUp;
use crate::shape::measure::{Measure, measure};
use crate::shape::solid::Solid;
use crate::shape::{EuclideanSpace, Point3, Vector3};
use product::{Product, Shared};
use std::collections::HashMap;
use text::{Id, Sheet, list, string};

/// Application protocol of the file.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Schema {
    /// ISO 10303-214, `AUTOMOTIVE_DESIGN`.
    #[default]
    Ap214,
    /// ISO 10303-242 edition 2.
    Ap242,
}

/// How a STEP file is written.
#[derive(Clone, Debug, PartialEq)]
pub struct StepOptions {
    /// Application protocol.
    pub schema: Schema,
    /// Time stamp of the header (ISO 8601); fixed unless the caller has a reason.
    pub time_stamp: String,
    /// Author named in the header; may be empty.
    pub author: String,
    /// Organisation named in the header; may be empty.
    pub organisation: String,
}

impl Default for StepOptions {
    fn default() -> Self {
        Self {
            schema: Schema::Ap214,
            time_stamp: "1970-01-01T00:00:00".to_owned(),
            author: String::new(),
            organisation: String::new(),
        }
    }
}

/// The STEP file of one part: solid under the part's name, colour, material, volume, area and centre.
pub fn part_step(part: &Part, solid: &Solid, options: &StepOptions) -> String {
    measured_step(part, (solid, &measure(solid)), options)
}

/// As [`part_step`], for who has measured the solid.
pub fn measured_step(part: &Part, solid: (&Solid, &Measure), options: &StepOptions) -> String {
    let mut sheet = Sheet::default();
    let shared = product::shared(&mut sheet, options.schema);
    product::part(&mut sheet, &shared, part, solid, None);
    file(sheet, &part.name, &part.title, options)
}

/// The STEP file of a part in the coordinates of a set-up: Z towards the tool, the origin where the part has its own. A
/// placement of the name `set-up 1` (2, 3 …) marks them.
pub fn set_up_step(part: &Part, solid: (&Solid, &Measure), set_up: &SetUp, options: &StepOptions) -> String {
    let mut sheet = Sheet::default();
    let shared = product::shared(&mut sheet, options.schema);
    product::part(&mut sheet, &shared, part, solid, Some(set_up));
    let title = format!("{}, set-up {}: {}", part.title, set_up.number, set_up.what);
    file(sheet, &format!("{}-{}", part.name, set_up.number), &title, options)
}

/// The STEP file of an assembly: each part's solid once, each instance named and placed.
///
/// Instances of parts that are not in `parts` (bought items without a solid) are left out, and so are parts without an
/// instance (what another part is cut or bent from).
pub fn assembly_step(
    name: &str,
    parts: &[(&Part, (&Solid, &Measure))],
    instances: &[Instance],
    options: &StepOptions,
) -> String {
    let mut sheet = Sheet::default();
    let shared = product::shared(&mut sheet, options.schema);
    let is_placed = |part: &Part| instances.iter().any(|i| i.part == part.name);
    let products: HashMap<&str, Product> = parts
        .iter()
        .filter(|(part, _)| is_placed(part))
        .map(|(part, solid)| (part.name.as_str(), product::part(&mut sheet, &shared, part, *solid, None)))
        .collect();
    let placed: Vec<(&Instance, &Product)> =
        instances.iter().filter_map(|i| products.get(i.part.as_str()).map(|p| (i, p))).collect();
    assemble(&mut sheet, &shared, name, &placed);
    file(sheet, name, "assembly", options)
}

fn assemble(sheet: &mut Sheet, shared: &Shared, name: &str, placed: &[(&Instance, &Product)]) {
    let context = product::units(sheet);
    let origin = sheet.placement("", Point3::origin(), Vector3::unit_z(), Vector3::unit_x());
    let places: Vec<Id> =
        placed.iter().map(|(i, _)| sheet.placement(&i.name, i.origin, i.z_axis, i.x_axis)).collect();
    let items: Vec<Id> = std::iter::once(origin).chain(places.iter().copied()).collect();
    let parent = sheet.add(&format!("SHAPE_REPRESENTATION({},{},#{context})", string(name), list(&items)));
    let (definition, _) = product::chain(sheet, shared, name, "assembly", parent);
    for (n, ((instance, child), place)) in placed.iter().zip(places).enumerate() {
        occurrence(sheet, n + 1, instance, child, (definition, parent, place));
    }
}

fn occurrence(
    sheet: &mut Sheet,
    number: usize,
    instance: &Instance,
    child: &Product,
    (definition, parent, place): (Id, Id, Id),
) {
    let name = string(&instance.name);
    let usage = sheet.add(&format!(
        "NEXT_ASSEMBLY_USAGE_OCCURRENCE('{number}',{name},'',#{definition},#{},$)",
        child.definition
    ));
    let shape = sheet.add(&format!("PRODUCT_DEFINITION_SHAPE('Placement','Placement of an item',#{usage})"));
    let transform = sheet.add(&format!("ITEM_DEFINED_TRANSFORMATION('','',#{},#{place})", child.origin));
    let relation = sheet.add(&format!(
        "(REPRESENTATION_RELATIONSHIP('','',#{},#{parent})\
         REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION(#{transform})SHAPE_REPRESENTATION_RELATIONSHIP())",
        child.representation
    ));
    sheet.add(&format!("CONTEXT_DEPENDENT_SHAPE_REPRESENTATION(#{relation},#{shape})"));
}

/// Header and data together.
fn file(sheet: Sheet, name: &str, title: &str, options: &StepOptions) -> String {
    let schema = match options.schema {
        Schema::Ap214 => "AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }",
        Schema::Ap242 => "AP242_MANAGED_MODEL_BASED_3D_ENGINEERING_MIM_LF { 1 0 10303 442 3 1 4 }",
    };
    let (description, file_name) = (string(title), string(&format!("{name}.step")));
    let (stamp, author) = (string(&options.time_stamp), string(&options.author));
    let (organisation, system) =
        (string(&options.organisation), concat!("'swept ", env!("CARGO_PKG_VERSION"), "'"));
    format!(
        "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION(({description}),'2;1');\n\
         FILE_NAME({file_name},{stamp},({author}),({organisation}),\n{system},{system},'');\n\
         FILE_SCHEMA(('{schema}'));\nENDSEC;\nDATA;\n{}ENDSEC;\nEND-ISO-10303-21;\n",
        sheet.finish()
    )
}
