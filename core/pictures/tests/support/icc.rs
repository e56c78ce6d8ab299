//! Matrix profiles made from published primaries.
//! Source: ICC.1:2010 (profile version 4.3), clauses 7 to 10.
#![allow(dead_code, reason = "each test program uses its own part of this")]
#![allow(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::many_single_char_names,
    reason = "numbers of a file format, small by construction"
)]

/// A device: primaries and white as chromaticities, and its curve.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Device {
    pub(crate) name: &'static str,
    pub(crate) primaries: [[f64; 2]; 3],
    pub(crate) white: [f64; 2],
    pub(crate) curve: Curve,
}

/// A tone curve.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Curve {
    Gamma(f64),
    /// sRGB's.
    Srgb,
}

const D65: [f64; 2] = [0.3127, 0.3290];

/// Source: Adobe RGB (1998) Color Image Encoding, section 4.3.
pub(crate) const WIDE: Device = Device {
    name: "like Adobe RGB",
    primaries: [[0.64, 0.33], [0.21, 0.71], [0.15, 0.06]],
    white: D65,
    curve: Curve::Gamma(563.0 / 256.0),
};
/// Source: SMPTE RP 431-2 primaries with D65 and sRGB's curve.
pub(crate) const P3: Device = Device {
    name: "like Display P3",
    primaries: [[0.680, 0.320], [0.265, 0.690], [0.150, 0.060]],
    white: D65,
    curve: Curve::Srgb,
};
/// Source: ISO 22028-2 (ROMM RGB) primaries; its curve without the linear foot.
pub(crate) const ROMM: Device = Device {
    name: "like ProPhoto RGB",
    primaries: [[0.7347, 0.2653], [0.1596, 0.8404], [0.0366, 0.0001]],
    white: [0.3457, 0.3585],
    curve: Curve::Gamma(1.8),
};
/// Source: IEC 61966-2-1.
pub(crate) const SRGB: Device = Device {
    name: "sRGB",
    primaries: [[0.64, 0.33], [0.30, 0.60], [0.15, 0.06]],
    white: D65,
    curve: Curve::Srgb,
};

pub(crate) type Matrix = [[f64; 3]; 3];

fn times(a: Matrix, b: Matrix) -> Matrix {
    std::array::from_fn(|i| std::array::from_fn(|j| (0..3).map(|k| a[i][k] * b[k][j]).sum()))
}

pub(crate) fn apply(m: Matrix, v: [f64; 3]) -> [f64; 3] {
    m.map(|row| row[0] * v[0] + row[1] * v[1] + row[2] * v[2])
}

pub(crate) fn inverse(m: Matrix) -> Matrix {
    let minor = |i: usize, j: usize| {
        let (a, b) = ((i + 1) % 3, (i + 2) % 3);
        let (c, d) = ((j + 1) % 3, (j + 2) % 3);
        m[a][c] * m[b][d] - m[a][d] * m[b][c]
    };
    let determinant: f64 = (0..3).map(|j| m[0][j] * minor(0, j)).sum();
    std::array::from_fn(|i| std::array::from_fn(|j| minor(j, i) / determinant))
}

fn xyz([x, y]: [f64; 2]) -> [f64; 3] {
    [x / y, 1.0, (1.0 - x - y) / y]
}

/// Bradford's cone responses. Source: ICC.1:2010 annex E.
const BRADFORD: Matrix =
    [[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]];
/// The profile connection space's white. Source: ICC.1:2010 7.2.16.
const D50: [f64; 3] = [0.9642, 1.0, 0.8249];

impl Device {
    /// Linear device RGB to XYZ of the connection space.
    pub(crate) fn matrix(&self) -> Matrix {
        let columns = self.primaries.map(xyz);
        let plain: Matrix = std::array::from_fn(|i| std::array::from_fn(|j| columns[j][i]));
        let scale = apply(inverse(plain), xyz(self.white));
        let own: Matrix = plain.map(|row| std::array::from_fn(|j| row[j] * scale[j]));
        let (from, to) = (apply(BRADFORD, xyz(self.white)), apply(BRADFORD, D50));
        let gain: Matrix = std::array::from_fn(|i| {
            std::array::from_fn(|j| if i == j { to[i] / from[i] } else { 0.0 })
        });
        times(times(times(inverse(BRADFORD), gain), BRADFORD), own)
    }

    pub(crate) fn linear(&self, v: f64) -> f64 {
        match self.curve {
            Curve::Gamma(gamma) => v.powf(gamma),
            Curve::Srgb if v <= 0.04045 => v / 12.92,
            Curve::Srgb => ((v + 0.055) / 1.055).powf(2.4),
        }
    }

    /// The profile's bytes.
    pub(crate) fn profile(&self) -> Vec<u8> {
        let fixed = |v: f64| ((v * 65536.0).round() as i32).to_be_bytes();
        let point = |v: [f64; 3]| {
            let mut bytes = b"XYZ \0\0\0\0".to_vec();
            bytes.extend(v.iter().flat_map(|&v| fixed(v)));
            bytes
        };
        let mut curve = b"para\0\0\0\0".to_vec();
        let (kind, parameters) = match self.curve {
            Curve::Gamma(gamma) => (0u16, vec![gamma]),
            Curve::Srgb => (3, vec![2.4, 1.0 / 1.055, 0.055 / 1.055, 1.0 / 12.92, 0.04045]),
        };
        curve.extend(kind.to_be_bytes());
        curve.extend([0, 0]);
        curve.extend(parameters.iter().flat_map(|&v| fixed(v)));
        let text = |words: &str| {
            let mut bytes = b"mluc\0\0\0\0\0\0\0\x01\0\0\0\x0cenUS".to_vec();
            let wide: Vec<u8> = words.encode_utf16().flat_map(u16::to_be_bytes).collect();
            bytes.extend((wide.len() as u32).to_be_bytes());
            bytes.extend(28u32.to_be_bytes());
            bytes.extend(wide);
            bytes
        };
        let m = self.matrix();
        let column = |j: usize| point([m[0][j], m[1][j], m[2][j]]);
        let tags: [(&[u8; 4], Vec<u8>); 9] = [
            (b"desc", text(self.name)),
            (b"cprt", text("none")),
            (b"wtpt", point(D50)),
            (b"rXYZ", column(0)),
            (b"gXYZ", column(1)),
            (b"bXYZ", column(2)),
            (b"rTRC", curve.clone()),
            (b"gTRC", curve.clone()),
            (b"bTRC", curve),
        ];
        let mut table = (tags.len() as u32).to_be_bytes().to_vec();
        let mut data = Vec::new();
        let start = 128 + 4 + 12 * tags.len();
        for (name, bytes) in &tags {
            table.extend_from_slice(*name);
            table.extend(((start + data.len()) as u32).to_be_bytes());
            table.extend((bytes.len() as u32).to_be_bytes());
            data.extend_from_slice(bytes);
            data.resize(data.len().next_multiple_of(4), 0);
        }
        let mut all = vec![0; 128];
        all[8..12].copy_from_slice(&[4, 0x30, 0, 0]);
        all[12..24].copy_from_slice(b"mntrRGB XYZ ");
        all[24..36].copy_from_slice(&[7, 0xea, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0]);
        all[36..40].copy_from_slice(b"acsp");
        all[68..80].copy_from_slice(&D50.map(fixed).concat());
        all.extend(table);
        all.extend(data);
        let length = (all.len() as u32).to_be_bytes();
        all[..4].copy_from_slice(&length);
        all
    }
}
