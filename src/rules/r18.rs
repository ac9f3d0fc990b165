//! R18: Each released assembly traces to one consignee and one dispatch note.

use crate::{
    ground::finding::{Finding, Severity},
    rule::{Outcome, Rule, View},
};

/// Each released assembly traces to one consignee and one dispatch note.
pub static RULE: Rule = Rule {
    id: "R18",
    severity: Severity::Blocks,
    demands: "Each released assembly traces to one consignee and one dispatch note.",
    protects: "an element that nobody can call back (one step down)",
    explained: "Never: it is mended, or what it concerns is not released.",
    check,
};

fn finding(message: String) -> Finding {
    Finding::new(RULE.id, RULE.severity, message)
}

fn check(view: &View) -> Outcome {
    let mut out = Outcome::of(say!("released assemblies"));
    let head = view.plant.records().head();
    let head = head.map(|(_, head)| head);
    let named: Vec<_> = head
        .iter()
        .flat_map(|head| head.customers.iter().chain(&head.customer))
        .collect();
    for (record, release) in view.plant.releases() {
        let other = release
            .customer
            .get("customer_id")
            .zip(release.customer.get("name"));
        let other = other.and_then(|(id, name)| {
            let own = named.iter().find(|party| {
                let known = party.customer_id.as_ref();
                known.is_some_and(|known| known.text == id.text) && party.name.text != name.text
            });
            Some((id, name, own?))
        });
        if let Some((id, name, own)) = other {
            out.find(
                finding(say!(
                    "{record}: {id} is \"{name}\" here and \"{own}\" in dossier.yaml.",
                    record = &*record.id,
                    id = &**id,
                    name = &**name,
                    own = &*own.name
                ))
                .advise(say!("Write the customer's name in one way in both."))
                .at(record.at(name.spot))
                .about(&*record.id.text),
            );
        }
        let has = |key: &str| {
            release
                .consignment
                .as_ref()
                .is_some_and(|consignment| consignment.get(key).is_some())
        };
        for id in &release.object.assemblies {
            out.look();
            let elsewhere = view
                .plant
                .releases_of(id)
                .find(|(other, _)| other.id.text != record.id.text);
            let message = match elsewhere {
                Some((other, _)) => say!(
                    "{id} is released in {id2} and in {id3}.",
                    id = &**id,
                    id2 = &*record.id,
                    id3 = &*other.id
                ),
                None if !has("dispatch_note") || !has("consignee") => say!(
                    "{id} is released to no consignee with a dispatch note.",
                    id = &**id
                ),
                None => {
                    let consignee = release
                        .consignment
                        .as_ref()
                        .and_then(|all| all.get("consignee"));
                    let customer = release.customer.get("customer_id");
                    match consignee
                        .zip(customer)
                        .filter(|(to, from)| to.text != from.text)
                    {
                        Some((to, customer)) => say!(
                            "{id} is released for {customer} and consigned to {to}.",
                            id = &**id,
                            customer = &**customer,
                            to = &**to
                        ),
                        None => continue,
                    }
                }
            };
            out.find(
                finding(message)
                    .advise(say!(
                        "Each element goes to one customer, with one dispatch note, in one release statement: correct what differs."
                    ))
                    .at(record.at(id.spot))
                    .about(&*id.text),
            );
        }
    }
    out
}
