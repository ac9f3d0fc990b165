//! What takes several pages in a plant: `joins.html`, `joins-002.html` and so on.

use std::collections::BTreeMap;

use super::{Making, Page, Section};

/// Things of one sort, so many to a page.
#[derive(Copy, Clone)]
pub(super) struct Paged {
    /// The first page without its ending.
    pub(super) name: &'static str,
    /// How many things stand on a page.
    pub(super) size: usize,
}

impl Paged {
    /// Page `n`, from 0.
    pub(super) fn path(self, n: usize) -> String {
        match n {
            0 => format!("{}.html", self.name),
            n => format!("{}-{:03}.html", self.name, n + 1),
        }
    }

    /// The page of each thing, by their ids in order.
    pub(super) fn homes<'a>(self, ids: impl Iterator<Item = &'a str>) -> BTreeMap<&'a str, String> {
        let home = |(i, id): (usize, &'a str)| (id, self.path(i / self.size));
        ids.enumerate().map(home).collect()
    }

    /// The pages; each is made from its number and its own things, and ends with links to all where there are several.
    pub(super) fn pages<'a, T: Copy + Send + 'a>(
        self,
        things: &[T],
        make: impl Fn(usize, &[T]) -> Page + Copy + Send + 'a,
    ) -> Vec<Making<'a>> {
        let count = things.len().div_ceil(self.size).max(1);
        let own = |n: usize| things.iter().skip(n * self.size).take(self.size).copied();
        let all: Vec<(usize, Vec<T>)> = (0..count).map(|n| (n, own(n).collect())).collect();
        Making::each(all, move |(n, own): (usize, Vec<T>)| {
            let mut page = make(n, &own);
            if count > 1 {
                page.sections.push(self.links(count));
            }
            page
        })
    }

    fn links(self, count: usize) -> Section {
        let link = |n: usize| format!("<a href=\"{}\">{}</a>", self.path(n), n + 1);
        let links: Vec<String> = (0..count).map(link).collect();
        let mut section = Section::new("further", say!("Page by page"));
        section.html.push(format!("<p>{}</p>", links.join(" ")));
        section
    }
}
