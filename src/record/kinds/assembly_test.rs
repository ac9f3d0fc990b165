//! `kind: assembly_test`

#[allow(unused_imports)]
use crate::record::{common::*, read::*};
use crate::shape;

/// One test of one assembly.
#[derive(Debug, Clone)]
pub struct AssemblyTest {
    /// What it was a test of.
    pub head: AssemblyTestHead,
    /// The test.
    pub test: ElementTest,
}

shape! {
    /// What was tested.
    pub struct AssemblyTestHead {
        /// The assembly.
        assembly_id: Id,
        /// joined_modules or final_after_adapter_and_tip.
        test_stage: Option<Text>,
    }
}

impl Shape for AssemblyTest {
    const ABOUT: &'static str = "One test of one assembly.";
    fn fields() -> Vec<Field> {
        let mut fields = AssemblyTestHead::fields();
        fields.extend(ElementTest::fields());
        fields
    }
    fn read_map(
        node: &crate::record::yaml::Node,
        reader: &mut Reader,
        extra: &[&str],
    ) -> Option<Self> {
        let head = AssemblyTestHead::read_map(node, reader, &[extra, ELEMENT_TEST_NAMES].concat());
        // Unknown keys have been reported by the head; here every key may stand.
        let all: Vec<&str> = keys(node);
        let test = ElementTest::read_map(node, reader, &all);
        Some(AssemblyTest {
            head: head?,
            test: test?,
        })
    }
}
