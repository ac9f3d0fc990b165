//! `kind: module_test`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::shape;

/// One test of one module.
#[derive(Debug, Clone)]
pub struct ModuleTest {
    /// What it was a test of.
    pub head: ModuleTestHead,
    /// The test.
    pub test: ElementTest,
}

shape! {
    /// What was tested.
    pub struct ModuleTestHead {
        /// The module.
        module_id: Id,
    }
}

impl Shape for ModuleTest {
    const ABOUT: &'static str = "One test of one module.";
    fn fields() -> Vec<Field> {
        let mut fields = ModuleTestHead::fields();
        fields.extend(ElementTest::fields());
        fields
    }
    fn read_map(
        node: &crate::record::yaml::Node,
        reader: &mut Reader,
        extra: &[&str],
    ) -> Option<Self> {
        let head = ModuleTestHead::read_map(node, reader, &[extra, ELEMENT_TEST_NAMES].concat());
        // Unknown keys have been reported by the head; here every key may stand.
        let all: Vec<&str> = keys(node);
        let test = ElementTest::read_map(node, reader, &all);
        Some(ModuleTest {
            head: head?,
            test: test?,
        })
    }
}
