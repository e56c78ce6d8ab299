//! Words that the tables use too, humidities, growth and colours as text.

use serde::de::Deserializer;
use serde::{Deserialize, Serialize, Serializer};

use super::{found, text};
use crate::{catalogue, geometry, material, spec};

macro_rules! texts {
    ($($name:ident($model:ty), $wanted:literal, $write:expr, $read:expr, $no:literal;)*) => {$(
        #[derive(Clone, Copy)]
        pub(in crate::file) struct $name(pub(in crate::file) $model);

        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
                let write: fn($model) -> String = $write;
                to.serialize_str(&write(self.0))
            }
        }

        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
                text(from, $wanted, |text| {
                    let read: fn(&str) -> Option<$model> = $read;
                    read(text).map(Self).ok_or_else(|| {
                        format!(concat!("{} is not ", $no), found(text))
                    })
                })
            }
        }
    )*};
}

texts! {
    Percent(material::Humidity), "a humidity in quotes, as in \"50 %\"",
        |humidity| format!("{} %", humidity.text()), material::Humidity::read,
        "a humidity: give 0 to 100 %, as in 50 %";
    Growth(material::Rate), "growth in percent per % RH in quotes, as in \"0.015\"",
        material::Rate::text, material::Rate::read,
        "a growth: give percent of the length per % RH, 0 to 1, as in 0.015";
    Fibre(material::Fibre), "a kind of paper in quotes, as in \"cotton\"",
        |fibre| fibre.key().to_owned(), material::Fibre::from_key,
        "a kind of paper: use fibre, resin-coated, cotton, baryta, washi or unknown";
    Process(material::Process), "a process in quotes, as in \"inkjet\"",
        |process| process.key().to_owned(), material::Process::from_key,
        "a process: use inkjet, darkroom-colour, silver, alkali-tender, pressed or unknown";
    Profile(material::Profile), "a profile in quotes, as in \"flat\"",
        |profile| profile.key().to_owned(), material::Profile::from_key,
        "a profile: use flat, rounded, bevelled, stepped or cove";
    Surface(material::Surface), "a surface in quotes, as in \"wood\"",
        |surface| surface.key().to_owned(), material::Surface::from_key,
        "a surface: use wood, painted or metal";
    Grain(spec::Grain), "the direction of the grain in quotes, as in \"width\"",
        |grain| grain.key().to_owned(), spec::Grain::from_key,
        "a direction of the grain: use width or height";
    Kind(spec::HingeKind), "a kind of hinge in quotes, as in \"t\"",
        |kind| kind.key().to_owned(), spec::HingeKind::from_key,
        "a kind of hinge: use t, v, pass-through, corners or strips";
    Side(geometry::Side), "an edge in quotes, as in \"top\"",
        |side| side.name().to_owned(),
        |text| geometry::Side::ALL.into_iter().find(|side| side.name() == text),
        "an edge: use top, right, bottom or left";
    Number(catalogue::Notation), "a print's number in quotes, as in \"3/25\"",
        |number| number.text(catalogue::Numerals::Fraction),
        |text| catalogue::Notation::read(text).map(|(number, _)| number),
        "the number of a print: give one such as 3/25, AP 2/5 or BAT";
    Numerals(catalogue::Numerals), "a way of numbering proofs in quotes, as in \"roman\"",
        |numerals| numerals.key().to_owned(), catalogue::Numerals::of_key,
        "a way of numbering proofs: use roman or fraction";
    Front(spec::Front), "a place on the front in quotes, as in \"margin\"",
        |front| front.key().to_owned(), spec::Front::from_key,
        "a place on the front: use margin, mat or nothing";
    Back(spec::Back), "a place on the back in quotes, as in \"margin\"",
        |back| back.key().to_owned(), spec::Back::from_key,
        "a place on the back: use margin or image";
}

/// A colour: `#f4f1ea`.
#[derive(Clone, Copy)]
pub(in crate::file) struct Colour(pub(in crate::file) material::Colour);

impl Serialize for Colour {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(&self.0.hex())
    }
}

impl<'de> Deserialize<'de> for Colour {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        text(from, "a colour in quotes, as in \"#f4f1ea\"", |text| {
            material::Colour::from_hex(text)
                .map(Self)
                .ok_or_else(|| format!("{} is not a colour: try #f4f1ea", found(text)))
        })
    }
}

/// What a board is made of, by its key.
#[derive(Clone, Copy)]
pub(in crate::file) struct Grade(pub(in crate::file) material::Grade);

impl Serialize for Grade {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(self.0.key())
    }
}

impl<'de> Deserialize<'de> for Grade {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        text(from, "a grade in quotes, as in \"cotton-buffered\"", |text| {
            material::Grade::from_key(text).map(Self).ok_or_else(|| {
                let keys = material::Grade::ALL.map(material::Grade::key).join(", ");
                format!("{} is not a grade: use one of {keys}", found(text))
            })
        })
    }
}
