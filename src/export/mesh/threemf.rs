//! 3MF (3D Manufacturing Format, core specification 1.x): a zip of one model in millimetres, written through the crates `zip`
//! and `quick-xml`. Its entries bear the first day that a zip can name, so that the same mesh gives the same bytes.

use crate::shape::mesh::Mesh;
use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesText, Event};
use std::io::{Cursor, Result, Write};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

/// Namespace of the core specification.
const CORE: &str = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02";
/// Namespaces of the package (Open Packaging Conventions, ECMA-376 part 2).
const TYPES: &str = "http://schemas.openxmlformats.org/package/2006/content-types";
const RELATIONS: &str = "http://schemas.openxmlformats.org/package/2006/relationships";
const RELATIONS_TYPE: &str = "application/vnd.openxmlformats-package.relationships+xml";
const MODEL_TYPE: &str = "application/vnd.ms-package.3dmanufacturing-3dmodel+xml";
/// Kind of the relation to the model.
const MODEL_RELATION: &str = "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel";
/// Where the model lies in the package.
const MODEL: &str = "3D/3dmodel.model";
/// Decimals of a coordinate \[mm\] as a power of ten: a hundredth of a micrometre, below what welds two corners.
const DECIMALS: f64 = 1e5;
/// Effort of the compression, 1 to 9: little more is saved by more.
const EFFORT: i64 = 2;

/// The bytes of a 3MF file with one object of this name, and what is told of it.
///
/// # Errors
/// When the package cannot be formed: a fault of the program.
pub fn threemf(mesh: &Mesh, name: &str, told: &str) -> std::result::Result<Vec<u8>, String> {
    package(mesh, name, told).map_err(|e| e.to_string())
}

fn package(mesh: &Mesh, name: &str, told: &str) -> Result<Vec<u8>> {
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .compression_level(Some(EFFORT))
        .last_modified_time(DateTime::default())
        .unix_permissions(0o644);
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (path, text) in
        [("[Content_Types].xml", types()?), ("_rels/.rels", relations()?), (MODEL, model(mesh, name, told)?)]
    {
        zip.start_file(path, options)?;
        zip.write_all(&text)?;
    }
    Ok(zip.finish()?.into_inner())
}

type Xml = Writer<Vec<u8>>;

/// A document of one element.
fn document(
    root: &str,
    attributes: &[(&str, &str)],
    inner: impl Fn(&mut Xml) -> Result<()>,
) -> Result<Vec<u8>> {
    let mut xml = Writer::new(Vec::new());
    xml.write_event(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None)))?;
    xml.create_element(root).with_attributes(attributes.iter().copied()).write_inner_content(inner)?;
    Ok(xml.into_inner())
}

fn types() -> Result<Vec<u8>> {
    document("Types", &[("xmlns", TYPES)], |xml| {
        for (extension, kind) in [("rels", RELATIONS_TYPE), ("model", MODEL_TYPE)] {
            let given = [("Extension", extension), ("ContentType", kind)];
            xml.create_element("Default").with_attributes(given).write_empty()?;
        }
        Ok(())
    })
}

fn relations() -> Result<Vec<u8>> {
    document("Relationships", &[("xmlns", RELATIONS)], |xml| {
        let target = format!("/{MODEL}");
        let given = [("Target", target.as_str()), ("Id", "rel0"), ("Type", MODEL_RELATION)];
        xml.create_element("Relationship").with_attributes(given).write_empty()?;
        Ok(())
    })
}

fn model(mesh: &Mesh, name: &str, told: &str) -> Result<Vec<u8>> {
    let root = [("unit", "millimeter"), ("xml:lang", "en-US"), ("xmlns", CORE)];
    document("model", &root, |xml| {
        let title = xml.create_element("metadata").with_attribute(("name", "Title"));
        title.write_text_content(BytesText::new(name))?;
        let description = xml.create_element("metadata").with_attribute(("name", "Description"));
        description.write_text_content(BytesText::new(told))?;
        xml.create_element("resources").write_inner_content(|xml| {
            let given = [("id", "1"), ("type", "model"), ("name", name)];
            let object = xml.create_element("object").with_attributes(given);
            object.write_inner_content(|xml| of_mesh(xml, mesh))?;
            Ok(())
        })?;
        xml.create_element("build").write_inner_content(|xml| {
            xml.create_element("item").with_attribute(("objectid", "1")).write_empty()?;
            Ok(())
        })?;
        Ok(())
    })
}

/// The element `mesh`. Its rows are plain numbers, so they are written as they are.
fn of_mesh(xml: &mut Xml, mesh: &Mesh) -> Result<()> {
    let out = xml.get_mut();
    out.write_all(b"<mesh><vertices>")?;
    for p in &mesh.points {
        // + 0.0: a negative nothing is none
        let [x, y, z] = [p.x, p.y, p.z].map(|c| (c * DECIMALS).round() / DECIMALS + 0.0);
        write!(out, "<vertex x=\"{x}\" y=\"{y}\" z=\"{z}\"/>")?;
    }
    out.write_all(b"</vertices><triangles>")?;
    for [a, b, c] in &mesh.triangles {
        write!(out, "<triangle v1=\"{a}\" v2=\"{b}\" v3=\"{c}\"/>")?;
    }
    out.write_all(b"</triangles></mesh>")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shape::Point3;

    #[test]
    fn the_same_mesh_gives_the_same_bytes_and_names_are_escaped() {
        let points = [(0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)];
        let mesh = Mesh {
            points: points.map(|(x, y, z)| Point3::new(x, y, z)).to_vec(),
            triangles: vec![[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]],
        };
        let bytes = threemf(&mesh, "a & b", "drill 3.3 mm").unwrap();
        assert_eq!(bytes, threemf(&mesh, "a & b", "drill 3.3 mm").unwrap());
        let mut zip = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
        let text = std::io::read_to_string(zip.by_name(MODEL).unwrap()).unwrap();
        assert!(
            text.contains(r#"<metadata name="Description">drill 3.3 mm<"#)
                && text.contains(r#"<model unit="millimeter""#)
                && text.contains(r#"name="a &amp; b""#),
            "{text}"
        );
        assert!(text.contains(r#"<vertex x="0" y="1" z="0"/>"#) && text.contains(r#"v1="0" v2="2" v3="1""#));
    }
}
