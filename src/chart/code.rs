//! A QR code (ISO/IEC 18004), drawn like everything else: one path, with its text as description.

use qrcode::{Color, EcLevel, QrCode};

use super::escape;

/// The blank margin around the code, in modules (ISO/IEC 18004: four).
const MARGIN: usize = 4;

/// The code of a text; nothing where it is too long for one.
///
/// `name` says what the code is, for readers who do not see it.
pub fn code(name: &str, text: &str) -> String {
    let Ok(code) = QrCode::with_error_correction_level(text, EcLevel::M) else {
        return String::new();
    };
    let width = code.width();
    let dark: String = code
        .to_colors()
        .iter()
        .enumerate()
        .filter(|(_, color)| **color == Color::Dark)
        .map(|(i, _)| format!("M{} {}h1v1h-1z", i % width + MARGIN, i / width + MARGIN))
        .collect();
    let side = width + 2 * MARGIN;
    format!(
        "<svg class=\"code\" viewBox=\"0 0 {side} {side}\" role=\"img\" aria-label=\"{name}: {text}\"><rect width=\"{side}\" height=\"{side}\"/><path d=\"{dark}\"/></svg>",
        name = escape(name),
        text = escape(text)
    )
}
