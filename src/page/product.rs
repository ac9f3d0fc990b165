//! The product rather than the lot: layers, dimensions, clearances, strengths, what becomes of it.

use super::{Book, Cell, Page, Section, Table, figure::view, lists::page};
use crate::{
    ground::{name::safe, words::spelt},
    record::Record,
};

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
            say!("Layers, from upstream to downstream"),
            &[
                say!("layer"),
                say!("material"),
                say!("thickness"),
                say!("lots or types allowed"),
            ],
        );
        for layer in &stack.layers {
            let allowed: Vec<&str> = layer.allowed.iter().map(|lot| &*lot.text).collect();
            table.rows.push(vec![
                Cell::link(
                    layer.layer.said(),
                    book.place_href(path, &record.at(layer.spot)),
                ),
                Cell::text(layer.material.as_deref().unwrap_or("")),
                Cell::text(&*layer.thickness.text),
                Cell::text(allowed.join(", ")),
            ]);
        }
        let mut section = Section::new(
            &safe(&record.id),
            &say!(
                "Layers of {product_code}",
                product_code = &*stack.product_code
            ),
        )
        .table(table);
        section.figures = figures(record);
        sections.push(section);
    }
    for (record, geometry) in plant.records().element_geometrys() {
        let mut table = Table::new(
            &say!(
                "Dimensions at {reference_temperature}",
                reference_temperature = spelt(&geometry.reference_temperature.text)
            ),
            &[
                say!("part"),
                say!("dimension"),
                say!("size"),
                say!("tolerance"),
                say!("material"),
            ],
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
            &say!(
                "Dimensions, clearances and strengths of {product_code}",
                product_code = &*geometry.product_code
            ),
        )
        .table(table);
        section.figures = figures(record);
        sections.push(section);
        let mut materials = Table::new(
            say!("Materials"),
            &[
                say!("material"),
                say!("what it is"),
                say!("expansion per kelvin"),
                say!("softens at"),
                say!("source"),
            ],
        );
        for material in &geometry.materials {
            materials.rows.push(vec![
                Cell::text(&*material.id.text),
                Cell::text(&*material.description.text),
                Cell::text(say!(
                    "{expansion_low} to {expansion_high}",
                    expansion_low = material.expansion_low.text,
                    expansion_high = material.expansion_high.text
                )),
                Cell::text(material.softens_at.as_ref().map_or("", |soft| &soft.text)),
                Cell::text(&*material.source.text),
            ]);
        }
        sections.push(
            Section::new(
                &format!("{id}-materials", id = safe(&record.id)),
                &say!(
                    "Materials of {product_code}",
                    product_code = &*geometry.product_code
                ),
            )
            .table(materials),
        );
        let mut end = Section::new(
            &format!("{id}-end", id = safe(&record.id)),
            &say!(
                "When {product_code} has served",
                product_code = &*geometry.product_code
            ),
        );
        end = match &geometry.material_separation {
            None => end.say(say!(
                "The record does not say how the element comes apart or where its materials go."
            )),
            Some(said) => {
                let mut table = Table::new(
                    say!("Separation of materials"),
                    &[say!("what"), say!("as declared")],
                );
                for (what, text) in &said.leaves {
                    table.rows.push(vec![
                        Cell::text(what.replace('_', " ")),
                        Cell::text(&*text.text),
                    ]);
                }
                end.table(table).say(say!("Rinse to neutral before an element is opened or handed on; local rules on waste come first."))
            }
        };
        sections.push(end);
    }
    if sections.is_empty() {
        sections.push(Section::new("none", say!("None")).say(say!(
            "No layer_stack and no element_geometry is in this folder."
        )));
    }
    page(
        path,
        say!("The product"),
        say!(
            "What an element consists of, what fits into what when hot and when cold, and what it bears."
        ),
        sections,
    )
}
