//! Products: the chain from application context to shape, units, colour and properties.

use super::Schema;
use super::brep;
use super::text::{Id, Sheet, real, string};
use crate::parts::part::Part;
use crate::parts::setups::SetUp;
use crate::shape::measure::Measure;
use crate::shape::solid::Solid;
use crate::shape::{EuclideanSpace, Point3, Vector3};

/// What all products of a file share.
pub(super) struct Shared {
    product_context: Id,
    definition_context: Id,
}

/// A product with its shape.
pub(super) struct Product {
    /// PRODUCT_DEFINITION.
    pub definition: Id,
    /// Its representation.
    pub representation: Id,
    /// The placement in the representation that stands for the product's own coordinates.
    pub origin: Id,
}

/// Contexts of the application protocol.
pub(super) fn shared(sheet: &mut Sheet, schema: Schema) -> Shared {
    let (title, name, year) = match schema {
        Schema::Ap214 => ("core data for automotive mechanical design processes", "automotive_design", 2010),
        Schema::Ap242 => {
            ("managed model based 3d engineering", "ap242_managed_model_based_3d_engineering", 2014)
        }
    };
    let context = sheet.add(&format!("APPLICATION_CONTEXT('{title}')"));
    sheet.add(&format!(
        "APPLICATION_PROTOCOL_DEFINITION('international standard','{name}',{year},#{context})"
    ));
    Shared {
        product_context: sheet.add(&format!("PRODUCT_CONTEXT('',#{context},'mechanical')")),
        definition_context: sheet
            .add(&format!("PRODUCT_DEFINITION_CONTEXT('part definition',#{context},'design')")),
    }
}

/// A part with solid, colour, material and volume, in the coordinates of a set-up if one is given; the placement of its
/// coordinates has the set-up's name then.
pub(super) fn part(
    sheet: &mut Sheet,
    shared: &Shared,
    part: &Part,
    (solid, measure): (&Solid, &Measure),
    set_up: Option<&SetUp>,
) -> Product {
    let context = units(sheet);
    let name = set_up.map_or_else(String::new, |s| format!("set-up {}", s.number));
    let origin = sheet.placement(&name, Point3::origin(), Vector3::unit_z(), Vector3::unit_x());
    if let Some(s) = set_up {
        sheet.turn([s.x_axis, s.y_axis(), s.z_axis]);
    }
    let body = brep::solid(sheet, solid, &part.name);
    let representation = sheet.add(&format!(
        "ADVANCED_BREP_SHAPE_REPRESENTATION({},(#{origin},#{body}),#{context})",
        string(&part.name)
    ));
    let (definition, shape) = chain(sheet, shared, &part.name, &part.title, representation);
    colour(sheet, body, part.material.colour, context);
    material(sheet, part, definition, context);
    validation(sheet, measure, shape, context);
    Product { definition, representation, origin }
}

/// PRODUCT to SHAPE_DEFINITION_REPRESENTATION; gives PRODUCT_DEFINITION and PRODUCT_DEFINITION_SHAPE.
pub(super) fn chain(
    sheet: &mut Sheet,
    shared: &Shared,
    name: &str,
    title: &str,
    representation: Id,
) -> (Id, Id) {
    let (name, title) = (string(name), string(title));
    let product = sheet.add(&format!("PRODUCT({name},{name},{title},(#{}))", shared.product_context));
    sheet.add(&format!("PRODUCT_RELATED_PRODUCT_CATEGORY('part',$,(#{product}))"));
    let formation = sheet.add(&format!("PRODUCT_DEFINITION_FORMATION('','',#{product})"));
    let definition =
        sheet.add(&format!("PRODUCT_DEFINITION('design','',#{formation},#{})", shared.definition_context));
    let shape = sheet.add(&format!("PRODUCT_DEFINITION_SHAPE('','',#{definition})"));
    sheet.add(&format!("SHAPE_DEFINITION_REPRESENTATION(#{shape},#{representation})"));
    (definition, shape)
}

/// A geometric context in millimetres and radians.
pub(super) fn units(sheet: &mut Sheet) -> Id {
    let length = millimetre(sheet);
    let angle = sheet.add("(NAMED_UNIT(*)PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.))");
    let solid = sheet.add("(NAMED_UNIT(*)SI_UNIT($,.STERADIAN.)SOLID_ANGLE_UNIT())");
    let close = sheet.add(&format!(
        "UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE(1.E-6),#{length},'distance_accuracy_value','confusion accuracy')"
    ));
    sheet.add(&format!(
        "(GEOMETRIC_REPRESENTATION_CONTEXT(3)GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT((#{close}))\
         GLOBAL_UNIT_ASSIGNED_CONTEXT((#{length},#{angle},#{solid}))REPRESENTATION_CONTEXT('',''))"
    ))
}

fn millimetre(sheet: &mut Sheet) -> Id {
    sheet.add("(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.))")
}

fn colour(sheet: &mut Sheet, body: Id, [r, g, b]: [f64; 3], context: Id) {
    let rgb = sheet.add(&format!("COLOUR_RGB('',{},{},{})", real(r), real(g), real(b)));
    let fill = sheet.add(&format!("FILL_AREA_STYLE_COLOUR('',#{rgb})"));
    let area = sheet.add(&format!("FILL_AREA_STYLE('',(#{fill}))"));
    let surface = sheet.add(&format!("SURFACE_STYLE_FILL_AREA(#{area})"));
    let side = sheet.add(&format!("SURFACE_SIDE_STYLE('',(#{surface}))"));
    let usage = sheet.add(&format!("SURFACE_STYLE_USAGE(.BOTH.,#{side})"));
    let style = sheet.add(&format!("PRESENTATION_STYLE_ASSIGNMENT((#{usage}))"));
    let item = sheet.add(&format!("STYLED_ITEM('colour',(#{style}),#{body})"));
    sheet.add(&format!("MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION('',(#{item}),#{context})"));
}

/// Name and density of the material.
fn material(sheet: &mut Sheet, part: &Part, definition: Id, context: Id) {
    let name = string(&part.material.name);
    let item = sheet.add(&format!("DESCRIPTIVE_REPRESENTATION_ITEM({name},{name})"));
    property(sheet, "material property", "material name", definition, "material name", &[item], context);
    let kilogram = sheet.add("(MASS_UNIT()NAMED_UNIT(*)SI_UNIT(.KILO.,.GRAM.))");
    let metre = sheet.add("(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT($,.METRE.))");
    let mass = sheet.add(&format!("DERIVED_UNIT_ELEMENT(#{kilogram},1.)"));
    let volume = sheet.add(&format!("DERIVED_UNIT_ELEMENT(#{metre},-3.)"));
    let unit = sheet.add(&format!("DERIVED_UNIT((#{mass},#{volume}))"));
    let density = real(part.material.drawn_kg_m3());
    let item = sheet.add(&format!(
        "MEASURE_REPRESENTATION_ITEM('density measure',POSITIVE_RATIO_MEASURE({density}),#{unit})"
    ));
    property(sheet, "material property", "density", definition, "density", &[item], context);
}

/// Volume, area and centre for a reader that wants to check what it has read.
fn validation(sheet: &mut Sheet, m: &Measure, shape: Id, context: Id) {
    let length = millimetre(sheet);
    let mut power = |n: &str| {
        let element = sheet.add(&format!("DERIVED_UNIT_ELEMENT(#{length},{n})"));
        sheet.add(&format!("DERIVED_UNIT((#{element}))"))
    };
    let (cubic, square) = (power("3."), power("2."));
    let volume = sheet.add(&format!(
        "MEASURE_REPRESENTATION_ITEM('volume measure',VOLUME_MEASURE({}),#{cubic})",
        real(m.volume_mm3)
    ));
    let area = sheet.add(&format!(
        "MEASURE_REPRESENTATION_ITEM('surface area measure',AREA_MEASURE({}),#{square})",
        real(m.area_mm2)
    ));
    let c = sheet.written(m.centre.to_vec());
    let centre =
        sheet.add(&format!("CARTESIAN_POINT('centre point',({},{},{}))", real(c.x), real(c.y), real(c.z)));
    let name = "geometric validation property";
    for (what, item) in [("volume", volume), ("surface area", area), ("centroid", centre)] {
        property(sheet, name, what, shape, what, &[item], context);
    }
}

fn property(sheet: &mut Sheet, name: &str, text: &str, of: Id, title: &str, items: &[Id], context: Id) {
    let definition = sheet.add(&format!("PROPERTY_DEFINITION('{name}','{text}',#{of})"));
    let items = super::text::list(items);
    let representation = sheet.add(&format!("REPRESENTATION('{title}',{items},#{context})"));
    sheet.add(&format!("PROPERTY_DEFINITION_REPRESENTATION(#{definition},#{representation})"));
}
