//! A text without quotes that ends where a reader would not end it.

/// What stands behind texts without quotes. They come in the order of the file, so each line is walked through once.
pub(super) struct Behind<'a> {
    lines: Vec<&'a str>,
    line: usize,
    /// So many letters of the line, which are so many bytes, lie behind.
    letters: usize,
    bytes: usize,
}

impl<'a> Behind<'a> {
    pub(super) fn of(text: &'a str) -> Behind<'a> {
        Behind {
            lines: text.lines().collect(),
            line: 0,
            letters: 0,
            bytes: 0,
        }
    }

    /// What stands behind a text that ends there and reads like a part of it, such as a number: `Lot #4`. A remark has a blank
    /// behind its mark.
    pub(super) fn cut_off(&mut self, (line, letters): (usize, usize)) -> Option<&'a str> {
        if line != self.line || letters < self.letters {
            (self.line, self.letters, self.bytes) = (line, 0, 0);
        }
        let text = self.lines.get(line.checked_sub(1)?)?;
        let ahead = text.get(self.bytes..)?.char_indices();
        let (bytes, _) = ahead.into_iter().nth(letters - self.letters)?;
        (self.letters, self.bytes) = (letters, self.bytes + bytes);
        let rest = text.get(self.bytes..)?.trim_start();
        let glued = rest.strip_prefix('#')?.chars().next()?;
        (!glued.is_whitespace() && glued != '#').then(|| rest.trim_end())
    }
}
