//! Rows of the tables of papers, tissues, glazing, fillers, frames and bags, as they are
//! typed: each is read with the field and the reason of what is wrong.

use serde::Deserialize;

use super::error::TableError;
use super::{
    Bag, Colour, Fibre, Filler, Frame, Glazing, Paper, Process, Profile, Rate, Surface, Tissue,
};
use crate::geometry::Size;
use crate::length::{Length, first_unit, parse, parse_pair};

/// A row that becomes something of the model.
pub(super) trait Row {
    type Model;
    fn into_model(self) -> Result<Self::Model, TableError>;
}

/// Names the row in every error.
pub(super) struct RowReader<'a>(pub(super) &'a str);

impl RowReader<'_> {
    pub(super) fn fail(&self, field: &str, why: &str) -> TableError {
        TableError::new(format!("{}, {field}: {why}", self.0))
    }

    /// From nothing (or just above it) to the most.
    fn length(
        &self,
        field: &str,
        text: &str,
        least: Length,
        most: Length,
    ) -> Result<Length, TableError> {
        let unit = first_unit(text)
            .ok_or_else(|| self.fail(field, "give a unit, as in 1/4in or 6mm"))?;
        let length = parse(text, unit).map_err(|error| self.fail(field, &error.to_string()))?;
        if !(least..=most).contains(&length) {
            let why = format!(
                "{text} is out of range: use {} to {}",
                least.text(unit),
                most.text(unit)
            );
            return Err(self.fail(field, &why));
        }
        Ok(length)
    }

    fn optional_length(
        &self,
        field: &str,
        text: Option<&str>,
        least: Length,
        most: Length,
    ) -> Result<Option<Length>, TableError> {
        text.map(|text| self.length(field, text, least, most)).transpose()
    }

    fn number(
        &self,
        field: &str,
        number: u32,
        least: u32,
        most: u32,
    ) -> Result<u32, TableError> {
        if (least..=most).contains(&number) {
            return Ok(number);
        }
        Err(self.fail(field, &format!("{number} is out of range: use {least} to {most}")))
    }

    pub(super) fn numbered(
        &self,
        field: &str,
        number: Option<u32>,
        most: u32,
    ) -> Result<Option<u32>, TableError> {
        number.map(|number| self.number(field, number, 1, most)).transpose()
    }

    fn colour(&self, field: &str, text: Option<&str>) -> Result<Option<Colour>, TableError> {
        text.map(|text| {
            Colour::from_hex(text).ok_or_else(|| {
                self.fail(field, &format!("\"{text}\" is not a colour: try #f4f1ea"))
            })
        })
        .transpose()
    }

    fn rate(&self, field: &str, text: Option<&str>) -> Result<Option<Rate>, TableError> {
        let read = |text: &str| {
            Rate::read(text).ok_or_else(|| {
                let why = format!(
                    "\"{text}\" is not a growth: give percent per % RH, 0 to 1, as in 0.015"
                );
                self.fail(field, &why)
            })
        };
        text.map(read).transpose()
    }

    fn size(&self, text: &str) -> Result<Size, TableError> {
        self.size_of("size", text)
    }

    pub(super) fn size_of(&self, field: &str, text: &str) -> Result<Size, TableError> {
        let unit = first_unit(text)
            .ok_or_else(|| self.fail(field, "give a unit, as in 16x20in or 400x500mm"))?;
        let (width, height) =
            parse_pair(text, unit).map_err(|error| self.fail(field, &error.to_string()))?;
        let size = Size::new(width, height);
        if size.is_positive() {
            return Ok(size);
        }
        Err(self.fail(field, &format!("{text} is not a size: both sides must be above zero")))
    }

    fn key<T: Copy>(
        &self,
        field: &str,
        text: &str,
        all: &[T],
        key: fn(T) -> &'static str,
    ) -> Result<T, TableError> {
        all.iter().copied().find(|one| key(*one) == text).ok_or_else(|| {
            let keys: Vec<_> = all.iter().map(|one| key(*one)).collect();
            self.fail(
                field,
                &format!("\"{text}\" is not known: use one of {}", keys.join(", ")),
            )
        })
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Paper")]
pub(super) struct PaperRow {
    id: String,
    name: String,
    fibre: String,
    process: String,
    mass_gsm: Option<u32>,
    thickness: Option<String>,
    white: Option<String>,
    along: Option<String>,
    across: Option<String>,
    water_based: bool,
    pencil: bool,
    origin: String,
}

impl Row for PaperRow {
    type Model = Paper;
    fn into_model(self) -> Result<Paper, TableError> {
        let row = RowReader(&self.id);
        Ok(Paper {
            fibre: row.key("fibre", &self.fibre, Fibre::ALL, Fibre::key)?,
            process: row.key("process", &self.process, Process::ALL, Process::key)?,
            mass_gsm: row.numbered("mass_gsm", self.mass_gsm, 5000)?,
            thickness: row.optional_length(
                "thickness",
                self.thickness.as_deref(),
                Length::um(10),
                Length::mm(10),
            )?,
            white: row.colour("white", self.white.as_deref())?,
            along: row.rate("along", self.along.as_deref())?,
            across: row.rate("across", self.across.as_deref())?,
            water_based: self.water_based,
            pencil: self.pencil,
            id: self.id,
            name: self.name,
            origin: self.origin,
        })
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Tissue")]
pub(super) struct TissueRow {
    id: String,
    name: String,
    #[serde(default)]
    width: Option<String>,
    #[serde(default)]
    tensile_n_per_m: Option<u32>,
    #[serde(default)]
    shear_pa: Option<u32>,
    reversible: bool,
    pressure_sensitive: bool,
    origin: String,
}

impl Row for TissueRow {
    type Model = Tissue;
    fn into_model(self) -> Result<Tissue, TableError> {
        let row = RowReader(&self.id);
        Ok(Tissue {
            width: row.optional_length(
                "width",
                self.width.as_deref(),
                Length::mm(1),
                Length::mm(500),
            )?,
            tensile_n_per_m: row.numbered(
                "tensile_n_per_m",
                self.tensile_n_per_m,
                1_000_000,
            )?,
            shear_pa: row.numbered("shear_pa", self.shear_pa, 100_000_000)?,
            reversible: self.reversible,
            pressure_sensitive: self.pressure_sensitive,
            id: self.id,
            name: self.name,
            origin: self.origin,
        })
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Glazing")]
pub(super) struct GlazingRow {
    id: String,
    name: String,
    thickness: String,
    density_kg_m3: u32,
    glass: bool,
    origin: String,
}

impl Row for GlazingRow {
    type Model = Glazing;
    fn into_model(self) -> Result<Glazing, TableError> {
        let row = RowReader(&self.id);
        Ok(Glazing {
            thickness: row.length(
                "thickness",
                &self.thickness,
                Length::um(100),
                Length::mm(50),
            )?,
            density_kg_m3: row.number("density_kg_m3", self.density_kg_m3, 100, 10_000)?,
            glass: self.glass,
            id: self.id,
            name: self.name,
            origin: self.origin,
        })
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Filler")]
pub(super) struct FillerRow {
    id: String,
    name: String,
    thickness: String,
    mass_gsm: u32,
    origin: String,
}

impl Row for FillerRow {
    type Model = Filler;
    fn into_model(self) -> Result<Filler, TableError> {
        let row = RowReader(&self.id);
        Ok(Filler {
            thickness: row.length(
                "thickness",
                &self.thickness,
                Length::ZERO,
                Length::mm(50),
            )?,
            mass_gsm: row.number("mass_gsm", self.mass_gsm, 0, 50_000)?,
            id: self.id,
            name: self.name,
            origin: self.origin,
        })
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Frame")]
pub(super) struct FrameRow {
    id: String,
    name: String,
    rabbet_depth: Option<String>,
    lip: String,
    face: String,
    mass_g_per_m: u32,
    #[serde(default)]
    colour: Option<String>,
    #[serde(default)]
    profile: Option<String>,
    #[serde(default)]
    surface: Option<String>,
    origin: String,
}

impl Row for FrameRow {
    type Model = Frame;
    fn into_model(self) -> Result<Frame, TableError> {
        let row = RowReader(&self.id);
        let most = Length::mm(500);
        let lip = row.length("lip", &self.lip, Length::ZERO, most)?;
        let colour = row.colour("colour", self.colour.as_deref())?;
        let profile = self.profile.as_deref().unwrap_or(Profile::Flat.key());
        let surface = self.surface.as_deref().unwrap_or(Surface::Wood.key());
        Ok(Frame {
            colour,
            profile: row.key("profile", profile, Profile::ALL, Profile::key)?,
            surface: row.key("surface", surface, Surface::ALL, Surface::key)?,
            rabbet_depth: row.optional_length(
                "rabbet_depth",
                self.rabbet_depth.as_deref(),
                Length::mm(1),
                most,
            )?,
            lip,
            face: row.length("face", &self.face, lip, most)?,
            mass_g_per_m: row.number("mass_g_per_m", self.mass_g_per_m, 0, 100_000)?,
            id: self.id,
            name: self.name,
            origin: self.origin,
        })
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Bag")]
pub(super) struct BagRow {
    id: String,
    name: String,
    size: String,
    origin: String,
}

impl Row for BagRow {
    type Model = Bag;
    fn into_model(self) -> Result<Bag, TableError> {
        let size = RowReader(&self.id).size(&self.size)?;
        Ok(Bag { size, id: self.id, name: self.name, origin: self.origin })
    }
}
