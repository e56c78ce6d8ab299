//! How the window looks: neutral greys, one muted accent, one typeface. Colours are made
//! nowhere else.

use std::sync::Arc;

use egui::epaint::CornerRadius;
use egui::{
    Color32, FontData, FontDefinitions, FontFamily, FontId, Stroke, TextStyle, Visuals,
};
use sightedge_core::finding::Severity;

/// Body text, in points.
pub const BODY: f32 = 14.0;
/// Secondary text, in points.
pub const SMALL: f32 = 12.0;
/// The one heading a view has, in points.
pub const HEADING: f32 = 18.0;
/// A row of fields, in points.
pub const ROW: f32 = 28.0;
/// Between related rows, in points.
pub const GAP: f32 = 4.0;
/// Between groups, in points.
pub const GROUP: f32 = 16.0;

/// The family of headings and group titles.
pub fn strong() -> FontFamily {
    FontFamily::Name("strong".into())
}

/// What a theme is made of; greys have equal parts, so that nothing near the picture tints it.
#[derive(Clone, Copy, Debug)]
pub struct Palette {
    /// Panels.
    pub panel: Color32,
    /// Fields.
    pub field: Color32,
    /// Text.
    pub text: Color32,
    /// Units, labels, what is secondary: at least 4.5:1 wherever text stands.
    pub quiet: Color32,
    /// Hairlines between panels and round fields.
    pub line: Color32,
    /// What is hovered.
    pub hover: Color32,
    /// Under the parts of a choice side by side.
    pub trough: Color32,
    /// The chosen part, which stands out of it: lighter than its neighbours in either theme.
    pub raised: Color32,
    /// Focus, and text that is selected.
    pub accent: Color32,
    /// Under what is selected: so near to the panel that accent and quiet text are read on it.
    pub chosen: Color32,
    /// Text on the accent.
    pub on_accent: Color32,
    /// A Fault's icon.
    pub fault: Color32,
    /// A Caution's icon.
    pub caution: Color32,
    /// A Note's icon.
    pub note: Color32,
}

const LIGHT: Palette = Palette {
    panel: Color32::from_gray(246),
    field: Color32::from_gray(255),
    text: Color32::from_gray(28),
    quiet: Color32::from_gray(96),
    line: Color32::from_gray(208),
    hover: Color32::from_gray(234),
    trough: Color32::from_gray(230),
    raised: Color32::from_gray(255),
    accent: Color32::from_rgb(52, 96, 140),
    chosen: Color32::from_rgb(214, 222, 230),
    on_accent: Color32::from_gray(255),
    fault: Color32::from_rgb(176, 38, 32),
    caution: Color32::from_rgb(150, 92, 0),
    note: Color32::from_rgb(78, 98, 120),
};

const DARK: Palette = Palette {
    panel: Color32::from_gray(38),
    field: Color32::from_gray(27),
    text: Color32::from_gray(232),
    quiet: Color32::from_gray(168),
    line: Color32::from_gray(70),
    hover: Color32::from_gray(56),
    trough: Color32::from_gray(27),
    raised: Color32::from_gray(72),
    accent: Color32::from_rgb(124, 170, 214),
    chosen: Color32::from_rgb(52, 60, 68),
    on_accent: Color32::from_gray(18),
    fault: Color32::from_rgb(242, 118, 108),
    caution: Color32::from_rgb(228, 172, 84),
    note: Color32::from_rgb(156, 178, 202),
};

impl Palette {
    /// The palette of a theme.
    pub const fn of(theme: egui::Theme) -> Self {
        match theme {
            egui::Theme::Light => LIGHT,
            egui::Theme::Dark => DARK,
        }
    }

    /// The colour of a severity's icon.
    pub const fn severity(&self, severity: Severity) -> Color32 {
        match severity {
            Severity::Fault => self.fault,
            Severity::Caution => self.caution,
            Severity::Note => self.note,
        }
    }
}

/// The palette of what is drawn as on paper, whatever the window's theme.
pub const PAPER: Palette = LIGHT;

/// The relative luminance of a colour. Source: WCAG 2.1, its definition.
fn luminance(colour: Color32) -> f64 {
    let part = |value: u8| {
        let c = f64::from(value) / 255.0;
        if c <= 0.040_45 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
    };
    0.2126 * part(colour.r()) + 0.7152 * part(colour.g()) + 0.0722 * part(colour.b())
}

/// The contrast ratio of two colours, from 1 to 21. Source: WCAG 2.1, its definition.
pub fn contrast(a: Color32, b: Color32) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// The least contrast of text. Source: WCAG 2.1, success criterion 1.4.3.
pub const READ: f64 = 4.5;

/// A grey that is read on `ground`: a soft dark or light one, black or white where neither is
/// enough. One of these two always is.
pub fn read_on(ground: Color32) -> Color32 {
    let read = |ink: &Color32| contrast(*ink, ground) >= READ;
    let soft = [18, 236].map(Color32::from_gray).into_iter();
    soft.chain([Color32::BLACK]).find(read).unwrap_or(Color32::WHITE)
}

/// The least contrast of what is no text: lines, marks of focus. Source: WCAG 2.1, success
/// criterion 1.4.11.
pub const SEEN: f64 = 3.0;

/// The two inks of a mark over a board and a picture of any colour: the line, and its edges. They
/// differ so much that one of both is seen wherever the mark lies.
pub const MARK: [Color32; 2] = [Color32::from_rgb(24, 60, 104), Color32::from_gray(255)];

/// A blue that is seen on `ground`, whatever its colour.
pub fn seen_on(ground: Color32) -> Color32 {
    let blues = [LIGHT.accent, Color32::from_rgb(14, 44, 84)];
    let seen = |ink: &Color32| contrast(*ink, ground) >= SEEN;
    blues.into_iter().find(seen).unwrap_or(Color32::from_rgb(214, 232, 250))
}

/// The palette in use.
pub fn palette(ui: &egui::Ui) -> Palette {
    Palette::of(ui.ctx().theme())
}

/// Dresses the window.
pub fn install(context: &egui::Context) {
    context.set_fonts(fonts());
    for theme in [egui::Theme::Light, egui::Theme::Dark] {
        let palette = Palette::of(theme);
        context.style_mut_of(theme, |style| {
            style.visuals = visuals(theme, palette);
            style.text_styles = [
                (TextStyle::Small, FontId::new(SMALL, FontFamily::Proportional)),
                (TextStyle::Body, FontId::new(BODY, FontFamily::Proportional)),
                (TextStyle::Button, FontId::new(BODY, FontFamily::Proportional)),
                (TextStyle::Heading, FontId::new(HEADING, strong())),
                (TextStyle::Monospace, FontId::new(BODY, FontFamily::Monospace)),
            ]
            .into();
            let spacing = &mut style.spacing;
            spacing.item_spacing = egui::vec2(8.0, GAP);
            // The column of labels of a form.
            spacing.indent = 80.0;
            spacing.button_padding = egui::vec2(10.0, 4.0);
            spacing.interact_size = egui::vec2(28.0, ROW);
            spacing.window_margin = egui::Margin::same(20);
            spacing.menu_margin = egui::Margin::same(6);
            spacing.combo_width = 80.0;
            spacing.icon_width = 16.0;
            spacing.icon_spacing = 6.0;
            spacing.tooltip_width = 320.0;
            style.animation_time = 0.1;
            style.interaction.selectable_labels = false;
            style.interaction.tooltip_delay = 0.3;
        });
    }
}

fn visuals(theme: egui::Theme, palette: Palette) -> Visuals {
    let mut visuals = match theme {
        egui::Theme::Light => Visuals::light(),
        egui::Theme::Dark => Visuals::dark(),
    };
    let radius = CornerRadius::same(4);
    let line = Stroke::new(1.0, palette.line);
    let text = Stroke::new(1.0, palette.text);
    visuals.panel_fill = palette.panel;
    visuals.window_fill = palette.panel;
    visuals.window_stroke = line;
    visuals.window_corner_radius = CornerRadius::same(8);
    visuals.menu_corner_radius = CornerRadius::same(6);
    visuals.extreme_bg_color = palette.field;
    visuals.text_edit_bg_color = Some(palette.field);
    visuals.faint_bg_color = palette.hover;
    visuals.code_bg_color = palette.hover;
    visuals.weak_text_color = Some(palette.quiet);
    visuals.hyperlink_color = palette.accent;
    visuals.warn_fg_color = palette.caution;
    visuals.error_fg_color = palette.fault;
    visuals.selection.bg_fill = palette.chosen;
    visuals.selection.stroke = Stroke::new(1.5, palette.accent);
    visuals.slider_trailing_fill = true;
    let widgets = &mut visuals.widgets;
    for (state, fill, stroke) in [
        (&mut widgets.noninteractive, palette.panel, line),
        (&mut widgets.inactive, palette.field, line),
        (&mut widgets.hovered, palette.hover, Stroke::new(1.0, palette.quiet)),
        (&mut widgets.active, palette.hover, Stroke::new(1.5, palette.accent)),
        (&mut widgets.open, palette.field, Stroke::new(1.0, palette.accent)),
    ] {
        state.bg_fill = fill;
        state.weak_bg_fill = fill;
        state.bg_stroke = stroke;
        state.fg_stroke = text;
        state.corner_radius = radius;
        state.expansion = 0.0;
    }
    visuals
}

fn fonts() -> FontDefinitions {
    let mut fonts = FontDefinitions::empty();
    for (name, data) in [
        ("regular", &include_bytes!("../../../assets/fonts/Inter-Regular.otf")[..]),
        ("semibold", &include_bytes!("../../../assets/fonts/Inter-SemiBold.otf")[..]),
    ] {
        fonts.font_data.insert(name.to_owned(), Arc::new(FontData::from_static(data)));
    }
    for (family, first) in [
        (FontFamily::Proportional, "regular"),
        (FontFamily::Monospace, "regular"),
        (strong(), "semibold"),
    ] {
        fonts.families.insert(family, vec![first.to_owned(), "regular".to_owned()]);
    }
    fonts
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: WCAG 2.1, its definitions: black on white is 21:1, a colour on itself 1:1; the
    /// greys #767676 and #777777 on white lie on either side of 4.5:1.
    #[test]
    fn contrast_is_the_published_one() {
        let white = Color32::WHITE;
        assert!((contrast(Color32::BLACK, white) - 21.0).abs() < 1e-9);
        assert!((contrast(white, white) - 1.0).abs() < 1e-9);
        assert!(contrast(Color32::from_gray(0x76), white) >= READ);
        assert!(contrast(white, Color32::from_gray(0x77)) < READ);
    }

    /// Source: WCAG 2.1, success criterion 1.4.3, for figures on boards and surrounds of any colour.
    #[test]
    fn figures_can_be_read_on_any_board() {
        for step in 0..=255_u8 {
            let red = Color32::from_rgb(step, 0, 0);
            let mixed = Color32::from_rgb(255 - step, step, 128);
            for ground in [Color32::from_gray(step), red, mixed] {
                let found = contrast(read_on(ground), ground);
                assert!(found >= READ, "{ground:?}: {found:.2}");
            }
        }
        // As soft as it may be.
        assert_eq!(read_on(Color32::from_gray(128)), Color32::from_gray(18));
        assert_eq!(read_on(Color32::from_gray(76)), Color32::from_gray(236));
    }

    /// Source: WCAG 2.1, success criterion 1.4.11, for marks on boards of any colour.
    #[test]
    fn marks_can_be_seen_on_any_board() {
        for step in 0..=255_u8 {
            let pure = [(step, 0, 0), (0, step, 0), (0, 0, step), (255 - step, step, 128)];
            let pure = pure.map(|(red, green, blue)| Color32::from_rgb(red, green, blue));
            for ground in pure.into_iter().chain([Color32::from_gray(step)]) {
                let line = contrast(seen_on(ground), ground);
                let mark = MARK.map(|ink| contrast(ink, ground));
                let mark = mark[0].max(mark[1]);
                assert!(line >= SEEN && mark >= SEEN, "{ground:?}: {line:.2}, {mark:.2}");
            }
        }
    }

    #[test]
    fn what_is_chosen_is_lighter_than_what_is_beside_it() {
        for theme in [egui::Theme::Light, egui::Theme::Dark] {
            let p = Palette::of(theme);
            assert!(luminance(p.raised) > luminance(p.trough), "{theme:?}");
            let apart = contrast(p.raised, p.trough);
            assert!(apart >= 1.2, "{theme:?}: {apart:.2}");
        }
    }

    /// Source: WCAG 2.1 (and 2.2), success criterion 1.4.3: text 4.5:1. What cannot be used is
    /// exempt there; what is held down or chosen is not.
    #[test]
    fn everything_can_be_read() {
        for theme in [egui::Theme::Light, egui::Theme::Dark] {
            let p = Palette::of(theme);
            for (name, ink, grounds) in [
                (
                    "text",
                    p.text,
                    &[p.panel, p.field, p.hover, p.chosen, p.trough, p.raised][..],
                ),
                ("quiet", p.quiet, &[p.panel, p.field, p.hover, p.chosen, p.trough]),
                ("accent", p.accent, &[p.panel, p.field, p.hover, p.chosen]),
                ("on accent", p.on_accent, &[p.accent]),
                ("fault", p.fault, &[p.panel, p.field]),
                ("caution", p.caution, &[p.panel, p.field]),
                ("note", p.note, &[p.panel, p.field]),
            ] {
                for ground in grounds {
                    let found = contrast(ink, *ground);
                    assert!(found >= READ, "{theme:?} {name} on {ground:?}: {found:.2}");
                }
            }
            // What is dressed so is what was judged.
            let visuals = visuals(theme, p);
            assert_eq!(visuals.selection.bg_fill, p.chosen);
            assert_eq!(visuals.selection.stroke.color, p.accent);
            assert_eq!(visuals.weak_text_color, Some(p.quiet));
            for grey in [p.panel, p.field, p.text, p.quiet, p.line, p.hover, p.trough, p.raised]
            {
                assert!(
                    grey.r() == grey.g() && grey.g() == grey.b(),
                    "{theme:?}: {grey:?} tints"
                );
            }
        }
    }
}
