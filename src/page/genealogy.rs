//! The way of membrane into elements and to customers, as one small figure.

use super::{Book, counted};
use crate::chart::ways::{Stop, Ways};

/// So many names stand in a column before it says how many there are.
const MOST: usize = 30;

/// A column under construction: names in order, each once.
#[derive(Default)]
struct Column(Vec<String>);

impl Column {
    fn place(&mut self, name: &str) -> usize {
        match self.0.iter().position(|own| own == name) {
            Some(at) => at,
            None => {
                self.0.push(name.to_owned());
                self.0.len() - 1
            }
        }
    }
}

/// Names of a column as stops, with their ways into the next.
fn stops(book: &Book, path: &str, names: &[String], ways: &[(usize, usize)]) -> Vec<Stop> {
    names
        .iter()
        .enumerate()
        .map(|(i, name)| {
            let mut into: Vec<usize> = ways
                .iter()
                .filter(|(from, _)| *from == i)
                .map(|(_, to)| *to)
                .collect();
            into.dedup();
            Stop {
                name: name.clone(),
                href: book.thing(path, name).href,
                into,
            }
        })
        .collect()
}

fn customer(book: &Book, assembly: &str) -> Option<String> {
    crate::plant::recall::consignee(&book.dossier.plant, assembly).map(|to| to.customer)
}

/// Rolls, modules, the assembly, its customer.
pub fn of_assembly(book: &Book, path: &str, id: &str) -> Option<String> {
    let plant = &book.dossier.plant;
    let (_, build) = plant.build(id)?;
    let (mut rolls, mut modules) = (Column::default(), Column::default());
    let mut ways = Vec::new();
    for position in &build.modules {
        let module = modules.place(&position.module_id);
        if let Some((_, _, pack)) = plant.pack(&position.module_id) {
            ways.push((rolls.place(&pack.material_lot), module));
        }
    }
    let into: Vec<(usize, usize)> = (0..modules.0.len()).map(|i| (i, 0)).collect();
    let to = customer(book, id);
    let mut columns = vec![
        (
            say!("membrane roll").to_owned(),
            stops(book, path, &rolls.0, &ways),
        ),
        (
            say!("module").to_owned(),
            stops(book, path, &modules.0, &into),
        ),
        (
            say!("assembly").to_owned(),
            vec![Stop {
                name: id.to_owned(),
                href: String::new(),
                into: to.iter().map(|_| 0).collect(),
            }],
        ),
    ];
    let words = say!(
        "{id} is made of {modules} from {rolls}{to}.",
        id = id,
        modules = modules.0.join(", "),
        rolls = rolls.0.join(", "),
        to = to
            .as_ref()
            .map_or(say!(", and consigned to nobody").to_owned(), |to| say!(
                ", and consigned to {to}",
                to = to
            ))
    );
    columns.extend(to.map(|name| {
        let stop = Stop {
            name,
            href: String::new(),
            into: Vec::new(),
        };
        (say!("customer").to_owned(), vec![stop])
    }));
    Ways {
        id: "genealogy".into(),
        words,
        columns,
    }
    .svg()
}

/// The roll, its modules, their assemblies, the customers.
pub fn of_roll(book: &Book, path: &str, id: &str) -> Option<String> {
    let plant = &book.dossier.plant;
    let (mut modules, mut assemblies, mut customers) =
        (Column::default(), Column::default(), Column::default());
    let (mut joined, mut sent) = (Vec::new(), Vec::new());
    for (module, _) in plant.modules_of_roll(id) {
        let own = modules.place(module);
        let Some(assembly) = plant.assemblies_of(module).first().copied() else {
            continue;
        };
        let at = assemblies.place(assembly);
        joined.push((own, at));
        if let Some(to) = customer(book, assembly) {
            sent.push((at, customers.place(&to)));
        }
    }
    if modules.0.len() > MOST || assemblies.0.is_empty() {
        return None;
    }
    let words = say!(
        "{id} went into {modules}, and so into {assemblies}, and on to {customers}.",
        id = id,
        modules = counted::modules(modules.0.len()),
        assemblies = counted::assemblies(assemblies.0.len()),
        customers = match customers.0.is_empty() {
            true => say!("nobody yet").to_owned(),
            false => customers.0.join(", "),
        }
    );
    let all: Vec<usize> = (0..modules.0.len()).collect();
    let mut columns = vec![
        (
            say!("membrane roll").to_owned(),
            vec![Stop {
                name: id.to_owned(),
                href: String::new(),
                into: all,
            }],
        ),
        (
            say!("module").to_owned(),
            stops(book, path, &modules.0, &joined),
        ),
        (
            say!("assembly").to_owned(),
            stops(book, path, &assemblies.0, &sent),
        ),
    ];
    if !customers.0.is_empty() {
        columns.push((
            say!("customer").to_owned(),
            stops(book, path, &customers.0, &[]),
        ));
    }
    Ways {
        id: "genealogy".into(),
        words,
        columns,
    }
    .svg()
}
