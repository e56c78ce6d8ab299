use super::*;
use proptest::prelude::*;

#[track_caller]
fn reads(text: &str, wanted: Length) {
    assert_eq!(parse(text, Unit::Inch), Ok(wanted), "{text}");
}

#[test]
fn reads_what_people_type() {
    let thirteen_and_a_half = Length::inches(13, 1, 2);
    for text in [
        "13 1/2",
        "13-1/2\"",
        "13.5in",
        "13.5 in",
        "13½",
        "13 ½ in",
        "13,5",
        "13 ¹⁄₂",
        "13-½",
        " 13.5 inches ",
        "27/2",
        "1' 1 1/2\"",
        "1′ 1½″",
        "1ft 1.5",
        "1'1.5",
        "1'-1 1/2\"",
        "13 - -1/2",
        "13 + 1/2",
        "(13 + 1/2)",
        "27/2''",
        "342.9 mm",
        "34.29cm",
        "34,29 cm",
        ".3429m",
        "27 * 1/2",
        "27/2 IN",
        "13 1/2 in.",
    ] {
        reads(text, thirteen_and_a_half);
    }
    reads("343 mm", Length::mm(343));
    reads("34.3cm", Length::mm(343));
    reads(".060 in", Length::inch_1000ths(60));
    reads("1' 2 1/4\"", Length::inches(14, 1, 4));
    reads("16 - 2*1/8", Length::inches(15, 3, 4));
    reads("16-2*1/8", Length::inches(15, 3, 4));
    reads("13 - 1/2", Length::inches(12, 1, 2));
    reads("-1/8", Length::inches(0, -1, 8));
    reads("−3 mm", Length::mm(-3));
    reads("343 mm - 2*3", Length::mm(337));
    reads("20 - 3mm - 3mm", Length::mm(14));
    reads("16 in - 6 mm", Length::inches(16, 0, 1) - Length::mm(6));
    reads("16-9/2", Length::inches(11, 1, 2));
    reads("(16 - 8)/2", Length::inches(4, 0, 1));
    reads("13.", Length::inches(13, 0, 1));
    reads("6'", Length::inches(72, 0, 1));
    reads("⅛", Length::inches(0, 1, 8));
    // In a sum it takes the unit of the other terms; beside feet, inches.
    reads("12 + 3 cm", Length::mm(150));
    reads("30cm - 2*4", Length::mm(220));
    reads("1' + 6", Length::inches(18, 0, 1));
    assert_eq!(
        parse("12", Unit::Millimetre),
        Ok(Length::mm(12)),
        "a bare number takes the unit"
    );
}

#[test]
fn says_what_is_wrong() {
    #[track_caller]
    fn refuses(text: &str, words: &str) {
        assert_eq!(parse(text, Unit::Inch).map_err(|e| e.to_string()), Err(words.to_owned()));
    }
    refuses("13.5x", "\"13.5x\" is not a length: try 13 1/2, 13.5 in or 343 mm");
    refuses("", "no length was typed: try 13 1/2, 13.5 in or 343 mm");
    refuses("thirteen", "\"thirteen\" is not a length: try 13 1/2, 13.5 in or 343 mm");
    refuses("16 -", "\"16 -\" stops before its last length: try 16 - 2*1/8 or 343 mm");
    refuses("1/0", "\"1/0\" divides by zero: try 13 1/2 or 27/2");
    refuses(
        "2 in * 3 in",
        "\"2 in * 3 in\" multiplies or divides a length by a length: use a length and a \
         number, as in 2*1/8 in",
    );
    refuses("1001 m", "\"1001 m\" is too long: lengths go up to 1 km (3280 ft), try 343 mm");
    for text in
        ["13 1/2 1/2", "1 2", "in", "3 furlongs", "1..2", "1,2,3", "5 mmm", "NaN", "1e3"]
    {
        assert!(parse(text, Unit::Inch).is_err(), "{text}");
    }
}

#[test]
fn lists_and_pairs() {
    let pair = parse_pair("13 1/2x17 5/8in", Unit::Millimetre);
    assert_eq!(pair, Ok((Length::inches(13, 1, 2), Length::inches(17, 5, 8))));
    let pair = parse_pair("329 × 483", Unit::Millimetre);
    assert_eq!(pair, Ok((Length::mm(329), Length::mm(483))));
    let list = parse_list("1/4, 1/4,3/8,-1/4 in", Unit::Millimetre);
    let inch = |over, under| Length::inches(0, over, under);
    assert_eq!(list, Ok(vec![inch(1, 4), inch(1, 4), inch(3, 8), inch(-1, 4)]));
    let mixed = parse_list("5mm,1/4,3", Unit::Inch);
    assert_eq!(mixed, Ok(vec![Length::mm(5), inch(1, 4), Length::inches(3, 0, 1)]));
    // It covers them as it was typed: centimetres, metres, feet.
    let mm = |width, height| Ok((Length::mm(width), Length::mm(height)));
    let inches =
        |width, height| Ok((Length::inches(width, 0, 1), Length::inches(height, 0, 1)));
    assert_eq!(parse_pair("20x30cm", Unit::Inch), mm(200, 300));
    assert_eq!(parse_pair("20.5x30 cm", Unit::Millimetre), mm(205, 300));
    assert_eq!(parse_pair("1x2m", Unit::Inch), mm(1000, 2000));
    assert_eq!(parse_pair("20mmx30cm", Unit::Inch), mm(20, 300));
    assert_eq!(parse_pair("100000x50000mm", Unit::Inch), mm(100_000, 50_000));
    assert_eq!(parse_pair("2x3ft", Unit::Millimetre), inches(24, 36));
    assert_eq!(parse_pair("16x1' 8", Unit::Millimetre), inches(16, 20));
    let list = parse_list("1,2,.5cm", Unit::Inch);
    assert_eq!(list, Ok([10, 20, 5].map(Length::mm).to_vec()));
    assert_eq!(
        parse_pair("999999x1cm", Unit::Inch).map_err(|e| e.to_string()),
        Err("\"999999\" is too long: lengths go up to 1 km (3280 ft), try 343 mm".to_owned())
    );
    assert_eq!(
        parse_pair("13", Unit::Inch).map_err(|e| e.to_string()),
        Err("\"13\" has 1 length: give a width and a height with x between them, as in 13 1/2x17 \
             5/8in or 329x483mm"
            .to_owned())
    );
    assert_eq!(first_unit("13x19in"), Some(Unit::Inch));
    assert_eq!(first_unit("4.5,3mm"), Some(Unit::Millimetre));
    assert_eq!(first_unit("13 1/2"), None);
    assert_eq!(first_unit("329mmx483mm"), Some(Unit::Millimetre));
}

/// Source: international yard and pound agreement, 1959: 1 in = 25.4 mm exactly.
#[test]
fn every_measure_of_the_bench_is_whole() {
    assert_eq!(Length::INCH * 10, Length::mm(254));
    assert_eq!(Length::inch_128ths(128), Length::INCH);
    assert_eq!(Length::inch_1000ths(1000), Length::INCH);
    assert_eq!(Length::INCH.units() % 72, 0, "a PDF point is whole");
}

#[test]
fn writes() {
    let long = Length::inches(13, 1, 2);
    assert_eq!(long.write(Style::InchFraction(8)).text, "13 1/2 in");
    assert_eq!(long.write(Style::InchDecimal).text, "13.5 in");
    assert_eq!(long.write(Style::Millimetre).text, "342.9 mm");
    assert_eq!(long.write(Style::Centimetre).text, "34.29 cm");
    let off = Length::inch_1000ths(60).write(Style::InchFraction(16));
    assert_eq!((off.text.as_str(), off.exact), ("1/16 in", false));
    assert_eq!(Length::inch_1000ths(60).text(Unit::Inch), "0.06 in");
    assert_eq!(Length::inches(0, -3, 16).text(Unit::Inch), "-3/16 in");
    assert_eq!(Length::ZERO.text(Unit::Inch), "0 in");
    assert_eq!(Length::mm(210).text(Unit::Inch), "8.2677 in");
}

#[test]
fn halves_add_up() {
    for units in [-3, -2, -1, 0, 1, 2, 3] {
        let whole = Length::from_units(units);
        let (first, second) = whole.halves();
        assert_eq!(first + second, whole);
        assert!(first <= second);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(20_000))]

    #[test]
    fn what_is_written_reads_back(units in -7_200_000_000_i64..7_200_000_000) {
        let length = Length::from_units(units);
        for unit in [Unit::Inch, Unit::Millimetre] {
            // The other unit as context: the text must carry its own.
            prop_assert_eq!(parse(&length.exact(unit), Unit::Inch), Ok(length));
        }
    }

    #[test]
    fn on_the_grid_every_style_reads_back(steps in -100_000_i64..100_000) {
        for (step, style) in [
            (Length::inches(0, 1, 8), Style::InchFraction(8)),
            (Length::inches(0, 1, 16), Style::InchFraction(16)),
            (Length::inches(0, 1, 32), Style::InchFraction(32)),
            (Length::inches(0, 1, 64), Style::InchFraction(64)),
            (Length::inch_1000ths(1), Style::InchDecimal),
            (Length::um(1), Style::Millimetre),
            (Length::um(1), Style::Centimetre),
        ] {
            let length = step * steps;
            let written = length.write(style);
            prop_assert!(written.exact);
            prop_assert_eq!(parse(&written.text, Unit::Millimetre), Ok(length));
        }
    }

    #[test]
    fn sums_are_exact(a in -1_000_000_i64..1_000_000, b in -1_000_000_i64..1_000_000) {
        let (a, b) = (Length::inch_128ths(a), Length::um(b));
        let typed = format!("{} + {}", a.exact(Unit::Inch), b.exact(Unit::Millimetre));
        prop_assert_eq!(parse(&typed, Unit::Inch), Ok(a + b));
    }
}

#[test]
fn what_is_out_of_measure_is_never_nothing() {
    for typed in
        ["999999999999*1000000", "999999999999 * 1000000 + 1 mm", "3 mm + 1/999999999989"]
    {
        let error = parse(typed, Unit::Inch).map_err(|error| error.to_string());
        let wanted = format!("\"{typed}\" is too long");
        assert!(error.as_ref().is_err_and(|e| e.starts_with(&wanted)), "{error:?}");
    }
}

/// Source: derived: 5 mm is 12.6 of 64ths, 0.6372 in 40.78, 0.635 mm 1.6; 1/8 in is 3.175 mm.
#[test]
fn digits_that_one_can_measure() {
    #[track_caller]
    fn case(length: Length, unit: Unit, way: Round, wanted: &str) {
        assert_eq!(length.sensible(unit, way), wanted);
    }
    use Round::{Down, Near, Up};
    case(Length::mm(5), Unit::Inch, Near, "13/64 in");
    case(Length::mm(5), Unit::Inch, Down, "3/16 in");
    case(Length::inches(0, 1, 8), Unit::Millimetre, Near, "3.2 mm");
    case(Length::inches(0, 1, 8), Unit::Millimetre, Down, "3.1 mm");
    let rabbet = Length::from_units(18_288 * 6372 / 10);
    case(rabbet, Unit::Inch, Near, "41/64 in");
    case(rabbet, Unit::Inch, Up, "41/64 in");
    case(rabbet, Unit::Inch, Down, "5/8 in");
    case(rabbet - Length::inches(0, 5, 8), Unit::Inch, Up, "1/64 in");
    case(Length::inches(0, 1, 64), Unit::Inch, Up, "1/64 in");
    case(Length::from_units(1), Unit::Millimetre, Up, "0.1 mm");
    case(-Length::inches(0, 1, 64), Unit::Inch, Near, "-1/64 in");
    case(Length::inches(9, 2, 4), Unit::Inch, Near, "9 1/2 in");
}

/// Source: Saitzyk, Art Hardware, 1987: 4-ply boards are sold as .060 in.
#[test]
fn thickness_as_it_is_sold() {
    #[track_caller]
    fn case(length: Length, inches: &str, metric: &str) {
        assert_eq!(length.thickness(Unit::Inch), inches);
        assert_eq!(length.thickness(Unit::Millimetre), metric);
    }
    case(Length::inch_1000ths(60), "0.06 in", "1.5 mm");
    case(Length::inches(0, 1, 8), "1/8 in", "3.2 mm");
    case(Length::mm(2), "5/64 in", "2 mm");
    case(Length::mm(3), "1/8 in", "3 mm");
    case(Length::um(1400), "0.055 in", "1.4 mm");
    case(Length::um(370), "0.015 in", "0.37 mm");
    case(Length::ZERO, "0 in", "0 mm");
}

#[test]
fn movement_shows_less_than_a_64th() {
    assert_eq!(Length::um(1143).fine(Unit::Inch), "0.045 in");
    assert_eq!(Length::um(1143).fine(Unit::Millimetre), "1.14 mm");
    assert_eq!((-Length::inches(0, 1, 8)).fine(Unit::Inch), "-0.125 in");
}
