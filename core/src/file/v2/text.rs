//! What is written as text behind the mat: humidities, growth, and words that the tables use
//! too. Each is checked while it is read, so that a refusal has its line.

use serde::de::Deserializer;
use serde::{Deserialize, Serialize, Serializer};

use crate::file::v1::text::{found, text};
use crate::{geometry, material, spec};

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
                        format!(concat!("{} is ", $no, " is wanted"), found(text))
                    })
                })
            }
        }
    )*};
}

pub(in crate::file) use texts;

texts! {
    Percent(material::Humidity), "a humidity in quotes, as in \"50 %\"",
        |humidity| format!("{} %", humidity.text()), material::Humidity::read,
        "no humidity: 0 to 100 %, as in 50 %,";
    Growth(material::Rate), "growth in percent per % RH in quotes, as in \"0.015\"",
        material::Rate::text, material::Rate::read,
        "no growth: percent of the length per % RH, 0 to 1, as in 0.015,";
    Fibre(material::Fibre), "a sort of paper in quotes, as in \"cotton\"",
        |fibre| fibre.key().to_owned(), material::Fibre::from_key,
        "no sort of paper: fibre, resin-coated, cotton, baryta, washi or unknown";
    Process(material::Process), "a process in quotes, as in \"inkjet\"",
        |process| process.key().to_owned(), material::Process::from_key,
        "no process: inkjet, darkroom-colour, silver, alkali-tender, pressed or unknown";
    Grain(spec::Grain), "the way of the grain in quotes, as in \"width\"",
        |grain| grain.key().to_owned(), spec::Grain::from_key,
        "no way of the grain: width or height";
    Kind(spec::HingeKind), "a kind of hinge in quotes, as in \"t\"",
        |kind| kind.key().to_owned(), spec::HingeKind::from_key,
        "no kind of hinge: t, v, pass-through, corners or strips";
    Side(geometry::Side), "an edge in quotes, as in \"top\"",
        |side| side.name().to_owned(),
        |text| geometry::Side::ALL.into_iter().find(|side| side.name() == text),
        "no edge: top, right, bottom or left";
}
