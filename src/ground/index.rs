//! What is found by its name at once, and listed in the order of names.

use indexmap::IndexMap;

/// Things by name. Whoever lists one has brought it into order with [`ordered`].
pub type Index<V> = IndexMap<Box<str>, V>;

/// The same in the order of names.
pub fn ordered<V>(mut index: Index<V>) -> Index<V> {
    index.sort_unstable_keys();
    index.shrink_to_fit();
    index
}
