//! Which specification rules a record or an element.

use super::Plant;
use crate::record::{
    Record,
    common::Reference,
    kinds::{Body, product_specification::ProductSpecification},
};

impl Plant {
    /// The specification in the revision that is named, or else its current one (rule R39 asks
    /// whether the named one was in force).
    pub fn spec(&self, reference: &Reference) -> Option<(&Record, &ProductSpecification)> {
        let records = self.records();
        let named = records.revision(
            "product_specification",
            &reference.id,
            reference.revision.value,
        );
        let record = named.or_else(|| records.find("product_specification", &reference.id))?;
        match &record.body {
            Body::ProductSpecification(body) => Some((record, body)),
            _ => None,
        }
    }

    /// The specification that rules a record.
    pub fn spec_of(&self, record: &Record) -> Option<(&Record, &ProductSpecification)> {
        let by_element = |id: &str| self.spec_of_element(id);
        let by_roll = |lot: &str| self.modules_of_roll(lot).find_map(|(id, _)| by_element(id));
        let found = match &record.body {
            Body::ModuleTest(body) => self.spec(&body.test.specification),
            Body::AssemblyTest(body) => self.spec(&body.test.specification),
            Body::MembraneTest(body) => match &body.specification {
                Some(reference) => self.spec(reference),
                None => by_roll(&body.material_lot),
            },
            Body::SlittingRecord(body) => by_roll(&body.material_lot),
            Body::RetentionChallenge(body) => by_roll(&body.material_lot),
            Body::PleatingRecord(body) => body
                .packs
                .iter()
                .find_map(|pack| by_element(&pack.module_id)),
            Body::SealRun(body) => body.items.iter().find_map(|item| by_element(&item.item)),
            Body::SealInspection(body) => {
                let run = self.records().find("seal_run", &body.seal_run);
                return run
                    .and_then(|run| self.spec_of(run))
                    .or_else(|| self.only_spec());
            }
            Body::AssemblyBuild(body) => by_element(&body.assembly_id),
            Body::CycleLog(body) => by_element(&body.assembly_id),
            Body::FlowTest(body) => match &body.product_code {
                Some(product) => self.spec_in_force(product, record),
                None => by_element(&body.element_id),
            },
            Body::CycleClaim(body) => self.spec_of_product(&body.product_code),
            Body::LayerStack(body) => self.spec_of_product(&body.product_code),
            Body::ElementGeometry(body) => self.spec_of_product(&body.product_code),
            Body::EnduranceStudy(body) => self.spec_of_product(&body.product_code),
            Body::MeasurementStudy(body) => self.spec_of_product(&body.product_code),
            _ => None,
        };
        found.or_else(|| self.only_spec())
    }

    /// The current specification of a product.
    pub fn spec_of_product(&self, code: &str) -> Option<(&Record, &ProductSpecification)> {
        self.records()
            .product_specifications()
            .find(|(_, spec)| &*spec.product_code.text == code)
    }

    /// The specification of a product that was in force on the day of a record; the current one where none was, or no day is known.
    fn spec_in_force(
        &self,
        code: &str,
        record: &Record,
    ) -> Option<(&Record, &ProductSpecification)> {
        let current = self.spec_of_product(code)?;
        let day = record.day();
        let all = self.records().revisions(current.0.kind, &current.0.id);
        let all = all.filter_map(|record| match &record.body {
            Body::ProductSpecification(body) => Some((record, &**body)),
            _ => None,
        });
        let dated = all.filter(|(_, spec)| day.is_some_and(|day| spec.effective_from.date <= day));
        Some(
            dated
                .max_by_key(|(record, _)| record.revision)
                .unwrap_or(current),
        )
    }

    fn only_spec(&self) -> Option<(&Record, &ProductSpecification)> {
        let mut all = self.records().product_specifications();
        all.next().filter(|_| all.next().is_none())
    }

    /// The specification of a module or assembly, by its tests or those of its modules.
    pub fn spec_of_element(&self, id: &str) -> Option<(&Record, &ProductSpecification)> {
        if let Some(test) = self.last_test(id) {
            return self.spec(&test.test.specification);
        }
        let (_, build) = self.build(id)?;
        build
            .modules
            .iter()
            .filter(|position| *position.module_id != *id)
            .find_map(|position| {
                self.last_test(&position.module_id)
                    .and_then(|test| self.spec(&test.test.specification))
            })
    }
}
