//! The product rather than the lot: layers, dimensions, clearances, strengths, what becomes of it.

use super::{Book, Cell, Page, Section, Table, figure::view, lists::page};
use crate::{ground::name::safe, record::Record};

/// Layers and geometry of each product, with the figures that stand on them.
pub fn product(book: &Book) -> Page {
    let path = "product.html";
    let plant = &book.dossier.plant;
    let figures = |record: &Record| {
        let own = book.view.figures_of(record).iter();
        own.map(|computed| view(book, path, computed, &record.id))
            .collect::<Vec<_>>()
    };
    let mut sections = Vec::new();
    for (record, stack) in plant.records().layer_stacks() {
        let mut table = Table::new(
            "Layers, from upstream to downstream",
            &["layer", "material", "thickness", "lots or types allowed"],
        );
        for layer in &stack.layers {
            let allowed: Vec<&str> = layer.allowed.iter().map(|lot| &*lot.text).collect();
            table.rows.push(vec![
                Cell::link(
                    layer.layer.word().replace('_', " "),
                    book.place_href(path, &record.at(layer.spot)),
                ),
                Cell::text(layer.material.as_deref().unwrap_or("")),
                Cell::text(&*layer.thickness.text),
                Cell::text(allowed.join(", ")),
            ]);
        }
        let mut section = Section::new(
            &safe(&record.id),
            &format!("Layers of {}", &*stack.product_code),
        )
        .table(table);
        section.figures = figures(record);
        sections.push(section);
    }
    for (record, geometry) in plant.records().element_geometrys() {
        let mut table = Table::new(
            &format!("Dimensions at {}", geometry.reference_temperature.text),
            &["part", "dimension", "size", "tolerance", "material"],
        );
        for part in &geometry.parts {
            table.rows.push(vec![
                Cell::link(
                    part.part.replace('_', " "),
                    book.place_href(path, &record.at(part.spot)),
                ),
                Cell::text(&*part.dimension.text),
                Cell::text(&*part.size.text),
                Cell::text(format!("± {}", part.tolerance.text)),
                Cell::text(&*part.material.text),
            ]);
        }
        let mut section = Section::new(
            &safe(&record.id),
            &format!(
                "Dimensions, clearances and strengths of {}",
                &*geometry.product_code
            ),
        )
        .table(table);
        section.figures = figures(record);
        sections.push(section);
        let mut materials = Table::new(
            "Materials",
            &[
                "material",
                "what it is",
                "expansion per kelvin",
                "softens at",
                "source",
            ],
        );
        for material in &geometry.materials {
            materials.rows.push(vec![
                Cell::text(&*material.id.text),
                Cell::text(&*material.description.text),
                Cell::text(format!(
                    "{} to {}",
                    material.expansion_low.text, material.expansion_high.text
                )),
                Cell::text(material.softens_at.as_ref().map_or("", |soft| &soft.text)),
                Cell::text(&*material.source.text),
            ]);
        }
        sections.push(
            Section::new(
                &format!("{}-materials", safe(&record.id)),
                &format!("Materials of {}", &*geometry.product_code),
            )
            .table(materials),
        );
        let mut end = Section::new(
            &format!("{}-end", safe(&record.id)),
            &format!("When {} has served", &*geometry.product_code),
        );
        end = match &geometry.material_separation {
            None => end.say(
                "The record does not say how the element comes apart or where its materials go.",
            ),
            Some(said) => {
                let mut table = Table::new("Separation of materials", &["what", "as declared"]);
                for (what, text) in &said.leaves {
                    table.rows.push(vec![
                        Cell::text(what.replace('_', " ")),
                        Cell::text(&*text.text),
                    ]);
                }
                end.table(table).say("Rinse to neutral before an element is opened or handed on; local rules on waste come first.")
            }
        };
        sections.push(end);
    }
    if sections.is_empty() {
        sections.push(
            Section::new("none", "None")
                .say("No layer_stack and no element_geometry is in this folder."),
        );
    }
    page(
        path,
        "The product",
        "What an element consists of, what fits into what when hot and when cold, and what it bears.",
        sections,
    )
}
