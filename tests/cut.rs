//! Boards out of sheets by the command `cut`: what it says adds up, and what is hostile is named.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails by panicking")]

use std::fmt::Write as _;

use serde_json::Value;
use sightedge_tests::commands::Bench;

/// Three plans: mats of 16 × 20, 16 × 20 and 20 × 26 in on one board.
fn bench(name: &str) -> Bench {
    let bench = Bench::new(env!("CARGO_TARGET_TMPDIR"), &format!("cut-{name}")).unwrap();
    for (name, outer) in [("a", "16x20"), ("b", "16x20"), ("c", "20x26")] {
        std::fs::copy(bench.path(Bench::PICTURE), bench.path(&format!("{name}.png"))).unwrap();
        let line = format!("new @{name}.png --sheet 8x10in --outer {outer} --reveal 1/8");
        assert_eq!(bench.run(&line).exit, 0, "{line}");
    }
    bench
}

const PLANS: &str = "@a.png.sightedge.ron @b.png.sightedge.ron @c.png.sightedge.ron";

fn json(out: &str) -> Value {
    serde_json::from_str(out).unwrap_or_else(|error| panic!("{error}: {out}"))
}

/// Source: none outside; each placement is read again and must lie on its sheet, apart from
/// all others, and every piece must be there.
#[test]
fn pieces_lie_apart_and_all_are_there() {
    let bench = bench("apart");
    for rounds in ["2", "3", "any"] {
        let said = bench.run(&format!("cut {PLANS} --rounds {rounds} --seconds 1 --json"));
        assert_eq!((said.exit, said.err.as_str()), (0, ""), "{rounds}");
        let all = json(&said.out);
        let plan = &all["boards"][0]["plan"];
        assert!(plan["lower_bound"].as_i64() <= plan["cost"].as_i64(), "{plan}");
        let places = plan["placements"].as_array().unwrap();
        let copies: u64 = places.iter().map(|p| p["copies"].as_u64().unwrap()).sum();
        assert_eq!(copies, 6, "three mats and three backings");
        let side = |p: &Value, name: &str| p[name].as_f64().unwrap();
        for (index, a) in places.iter().enumerate() {
            for b in &places[index + 1..] {
                let apart = |at: &str, long: &str| {
                    side(a, at) + side(a, long) <= side(b, at) + 1e-6
                        || side(b, at) + side(b, long) <= side(a, at) + 1e-6
                };
                let same = a["sheet"] == b["sheet"];
                assert!(!same || apart("x", "width") || apart("y", "height"), "{a} {b}");
            }
        }
        let lines = all["materials"].as_array().unwrap();
        assert!(lines.iter().any(|line| line["what"] == "Bags, inside at least"), "{all}");
    }
}

/// Source: by hand. 16 × 20 in go four times into 32 1/4 × 40 1/4 in less 1/8 in of trim all
/// round; a sixteenth more goes once.
#[test]
fn borders_that_give_a_sixteenth_save_sheets() {
    let bench = bench("give");
    let line = "new @a.png --sheet 8x10in --outer \"16 1/16 x 20 1/16\" --reveal 1/8 --replace";
    assert_eq!(bench.run(line).exit, 0);
    bench
        .put("stock.csv", b"board,width,height,price,in_hand\n*,32 1/4,40 1/4,10.50,\n")
        .unwrap();
    let plan = "@a.png.sightedge.ron";
    let line = format!("cut {plan} {plan} --stock @stock.csv --give 1/8 --json");
    let all = json(&bench.run(&line).out);
    let offer = &all["narrower"][0];
    assert_eq!(offer["by_mm"].as_f64(), Some(1.5875), "{all}");
    assert!(offer["sheets_saved"].as_u64() >= Some(1), "{all}");
    let change = &offer["changes"][0];
    let width = |when: &str| change[when]["outer_mm"][0].as_f64().unwrap();
    assert!((width("before") - width("after") - 2.0 * 1.5875).abs() < 1e-9, "{all}");
    let text = bench.run(&format!("cut {plan} {plan} --stock @stock.csv --give 1/8")).out;
    let board = "board 16 1/16 × 20 1/16 in → 15 15/16 × 19 15/16 in; top mat’s borders ";
    assert!(text.contains(board), "{text}");
    for (give, words) in
        [("-1/8", "borders can be narrowed by 0"), ("9 ft", "--give"), ("x", "--give")]
    {
        let said = bench.run(&format!("cut {plan} --give=\"{give}\""));
        assert_eq!(said.exit, 4, "{give}: {said:?}");
        assert!(said.err.contains(words), "{give}: {}", said.err);
    }
}

/// Says of a plan's boards that they have a pattern.
fn patterned(bench: &Bench, plan: &str) {
    let path = bench.path(plan);
    let text = std::fs::read_to_string(&path).unwrap();
    assert!(text.contains("grade:"), "{text}");
    std::fs::write(&path, text.replace("grade:", "turns: false, grade:")).unwrap();
}

/// Source: by hand. Out of 42 × 17 in, 16 × 20 in comes only when it is turned, and twice; a
/// pattern forbids it. Out of 33 × 41 in four come upright.
#[test]
fn a_pattern_keeps_its_direction() {
    let bench = bench("pattern");
    let cut = |stock: &str, more: &str| {
        let text = format!("board,width,height\n*,{stock}\n");
        bench.put("stock.csv", text.as_bytes()).unwrap();
        let line = "cut @a.png.sightedge.ron --stock @stock.csv --seconds 1 --json";
        bench.run(&format!("{line} {more}"))
    };
    let said = cut("42,17", "");
    assert_eq!(
        (said.exit, json(&said.out)["boards"][0]["plan"]["sheets"].as_u64()),
        (0, Some(1))
    );
    patterned(&bench, "a.png.sightedge.ron");
    let said = cut("42,17", "");
    assert_eq!(said.exit, 6, "{said:?}");
    assert!(said.out.contains("Let it be turned, or add a larger sheet"), "{}", said.out);
    let said = cut("33,41", "@a.png.sightedge.ron");
    let all = json(&said.out);
    assert_eq!((said.exit, &all["boards"][0]["turns"]), (0, &Value::Bool(false)), "{all}");
    let plan = &all["boards"][0]["plan"];
    assert_eq!(plan["sheets"].as_u64(), Some(1), "{plan}");
    for place in plan["placements"].as_array().unwrap() {
        let sides = (place["width"].as_f64(), place["height"].as_f64());
        assert_eq!(
            (sides, &place["turned"]),
            ((Some(406.4), Some(508.0)), &Value::Bool(false))
        );
    }
    // With and without a pattern it is not the same board.
    let all = json(&cut("33,41", "@b.png.sightedge.ron").out);
    assert_eq!(all["boards"].as_array().map(Vec::len), Some(2), "{all}");
}

/// Source: by hand. The window of 20 × 26 in round 8 × 10 in is some 8 × 10 in high; a mat of
/// 9 1/2 × 7 in fits it turned only, one of 7 × 9 1/2 in upright. Two such windows take a small
/// mat and its backing, and save a sheet; one would save none and is left alone.
#[test]
fn drop_outs_keep_the_direction_of_their_pattern() {
    let bench = bench("drop-outs");
    bench.put("stock.csv", b"board,width,height\n*,20 1/4,26 1/4\n").unwrap();
    for (outer, pattern, used) in
        [("9 1/4 x 7", false, true), ("9 1/4 x 7", true, false), ("7 x 9 1/4", true, true)]
    {
        std::fs::copy(bench.path(Bench::PICTURE), bench.path("s.png")).unwrap();
        let line = format!(
            "new @s.png --sheet 5x6in --image 4x5in --outer \"{outer}\" --reveal 1/8 --replace"
        );
        let said = bench.run(&line);
        assert_eq!(said.exit, 0, "{line}: {said:?}");
        let line = "new @c.png --sheet 8x10in --outer 20x26 --reveal 1/8 --replace";
        assert_eq!(bench.run(line).exit, 0);
        if pattern {
            patterned(&bench, "s.png.sightedge.ron");
            patterned(&bench, "c.png.sightedge.ron");
        }
        let line = "cut @c.png.sightedge.ron @c.png.sightedge.ron @s.png.sightedge.ron \
                    --stock @stock.csv --drop-outs --seconds 1 --json";
        let all = json(&bench.run(line).out);
        let patterns = all["boards"][0]["plan"]["patterns"].as_array().unwrap().clone();
        let from = |p: &Value| p["name"].as_str().unwrap().starts_with("drop-out");
        assert_eq!(patterns.iter().any(from), used, "{outer}, pattern {pattern}: {all}");
    }
}

#[test]
fn hostile_stock_is_named() {
    let bench = bench("stock");
    let stock = |text: &str| {
        bench.put("stock.csv", text.as_bytes()).unwrap();
        bench.run("cut @a.png.sightedge.ron --stock @stock.csv --seconds 1")
    };
    for (text, exit, words) in [
        ("board,width,height\n*,0,40\n", 3, "above zero"),
        ("board;width;height\n*;32;40\n", 3, "with commas"),
        (
            "width,height\n32,40\n",
            3,
            "must name the columns: board,width,height,price,in_hand,offcut",
        ),
        ("board,width,height\n*,-32,40\n", 3, "line 2, width: \"-32\" is no size"),
        ("board,width,height\n*,wide,40\n", 3, "line 2, width"),
        (
            "board,width,height,price\n*,32,40,1.505\n",
            3,
            "\"1.505\" is no price: give an amount",
        ),
        ("board,width,height,price\n*,32,40,99999999999999999999\n", 3, "give an amount up to"),
        ("board,width,height,price\n*,32,40,1000001\n", 3, "give an amount up to"),
        ("board,width,height\n*,99999999999999999999,40\n", 3, "line 2"),
        ("board,width,height,price,in_hand\n*,32,40,,-1\n", 3, "line 2, in_hand: \"-1\""),
        ("board,width,height,offcut\n*,32,40,maybe\n", 3, "\"maybe\" is neither yes nor no"),
        ("board,width,height,price,offcut\n*,32,40,5,yes\n", 3, "an offcut in hand costs"),
        ("board,width,height\n*,x,40\n*,32,40\n*,32,0\n", 6, "line 2, width"),
        (
            "board,width,height\n*,x,40\n*,32,40\n*,32,0\n",
            6,
            "line 4, height: \"0\" is no size",
        ),
        ("board,width,height\n", 6, "there is no sheet"),
        ("board,width,height\n*,10,10\n", 6, "a.png, mat is 16 in x 20 in and fits no sheet"),
        ("board,width,height,price,in_hand\n*,17,21,5,1\n", 6, "ran out"),
        ("", 6, "there is no sheet"),
        ("\"", 6, "there is no sheet"),
    ] {
        let said = stock(text);
        assert_eq!(said.exit, exit, "{text:?}: {said:?}");
        assert!(said.err.contains(words), "{text:?}: {}", said.err);
    }
    let mut many = "board,width,height\n".to_owned();
    for n in 0..2000 {
        writeln!(many, "*,{},{}", 20 + n % 40, 24 + n % 50).unwrap();
    }
    assert_eq!(stock(&many).exit, 0, "two thousand kinds of sheet");
}

/// Source: by hand: the mat and its backing, 16 x 20 in each, come out of a sheet of 33 x 41 or
/// one each out of two offcuts of 17 x 21.
#[test]
fn offcuts_in_hand_are_used_first() {
    let bench = bench("offcuts");
    bench
        .put("stock.csv", b"board,width,height,in_hand,offcut\n*,33,41,,no\n*,17,21,2,yes\n")
        .unwrap();
    let said = bench.run("cut @a.png.sightedge.ron --stock @stock.csv --seconds 1 --json");
    assert_eq!(said.exit, 0, "{said:?}");
    let plan = &json(&said.out)["boards"][0]["plan"];
    assert_eq!(plan["cost"], 0, "{plan}");
    assert!(plan["patterns"][0]["name"].as_str().unwrap().starts_with("offcut"), "{plan}");
}

#[test]
fn bad_rows_are_left_out_and_told() {
    let bench = bench("bad-rows");
    let table = "instance,kind,width,height,copies\nx,sheet,10,10,\nx,piece,5,5,-1\n\
                 x,piece,5,5,0\nx,piece,5,5,4\n";
    bench.put("odd.csv", table.as_bytes()).unwrap();
    let said = bench.run("cut --instance @odd.csv --name x --seconds 1 --json");
    assert_eq!(said.exit, 6, "{said:?}");
    let plan = json(&said.out);
    assert_eq!(plan["sheets"], 1, "{plan}");
    let complaints = plan["complaints"].to_string();
    assert!(complaints.contains("line 3") && complaints.contains("line 4"), "{complaints}");
}

#[test]
fn hostile_instances_are_named() {
    let bench = bench("instance");
    let head = "instance,kind,width,height,copies\n";
    for (rows, exit, words) in [
        ("", 3, "has no instance"),
        ("x,sheet,10,10,\nx,piece,20,20,1\n", 6, ""),
        ("x,sheet,10,10,\nx,piece,0,5,1\nx,piece,-1,5,1\nx,piece,5,5,1\n", 6, ""),
        ("x,sheet,10,10,\nx,piece,5,5,4294967296\n", 6, ""),
        ("x,sheet,10,10,\nx,piece,5,5,-1\n", 3, "a count"),
        ("x,sheet,10,10,\nx,piece,5,5,0\n", 3, "a count of 1 or more"),
        ("x,sheet,10,10,\nx,piece,5,5,4294967295\n", 6, ""),
        ("x,sheet,ten,10,\n", 3, "a whole number"),
        ("x,sheet,10,10,\nx,disc,5,5,1\n", 3, "sheet or piece"),
        ("x,piece,5,5,1\n", 6, ""),
        ("x,sheet,9223372036854775807,10,\nx,piece,5,5,1\n", 6, ""),
        ("x,sheet,10\n", 3, ""),
    ] {
        bench.put("odd.csv", format!("{head}{rows}").as_bytes()).unwrap();
        let said = bench.run("cut --instance @odd.csv --name x --seconds 1 --json");
        assert_eq!(said.exit, exit, "{rows:?}: {said:?}");
        assert!(said.err.contains(words), "{rows:?}: {}", said.err);
        if exit == 6 {
            let plan = json(&said.out);
            assert!(!plan["missing"].as_array().unwrap().is_empty(), "{rows:?}: {plan}");
            assert!(!plan["complaints"].as_array().unwrap().is_empty(), "{rows:?}: {plan}");
        }
    }
}

/// Cuts a sheet by the JSON alone: what lies on the bench in the end, by name.
fn cut_by_json(sequence: &Value, (wide, high): (f64, f64)) -> Vec<(String, (f64, f64))> {
    let number = |value: &Value, key: &str| value[key].as_f64().unwrap();
    let trim = |edge: &str| number(&sequence["trim"], edge);
    let size = (wide - trim("left") - trim("right"), high - trim("bottom") - trim("top"));
    let mut bench = vec![(sequence["sheet"].as_str().unwrap().to_owned(), size)];
    for step in sequence["cuts"].as_array().unwrap() {
        let at = bench.iter().position(|(name, _)| step["piece"] == *name);
        let (_, (width, height)) = bench.remove(at.unwrap_or_else(|| panic!("{step}")));
        let stop = number(step, "stop");
        let parts = match step["edge"].as_str().unwrap() {
            "left edge" => [(stop, height), (width - stop, height)],
            "lower edge" => [(width, stop), (width, height - stop)],
            other => panic!("{other}"),
        };
        for (part, fell) in parts.into_iter().zip(step["falls"].as_array().unwrap()) {
            bench.push((fell["name"].as_str().unwrap().to_owned(), part));
        }
    }
    bench
}

/// A length in mm as whole sixteenths of an inch.
fn sixteenths(mm: f64) -> i64 {
    let whole = (0..2000_i32).find(|n| (f64::from(*n) * 25.4 / 16.0 - mm).abs() < 1e-6);
    i64::from(whole.unwrap_or_else(|| panic!("{mm} is no sixteenth")))
}

/// Source: the plans themselves: from the JSON alone, sheet by sheet and cut by cut, exactly
/// their mats and backings fall out; the text says the same, each line with board and stock.
#[test]
fn the_cuts_make_what_the_plans_want_and_the_text_says_the_same() {
    let bench = bench("sequence");
    let line = format!("cut {PLANS} @a.png.sightedge.ron @b.png.sightedge.ron --seconds 1");
    let all = json(&bench.run(&format!("{line} --json")).out);
    let text = bench.run(&line).out;
    let board = &all["boards"][0];
    let name = board["board"].as_str().unwrap();
    let mut made: Vec<(i64, i64)> = Vec::new();
    let mut cuts = 0;
    for pattern in board["plan"]["patterns"].as_array().unwrap() {
        let side = |key: &str| pattern["stock"][key].as_f64().unwrap();
        let sequence = &pattern["sequence"];
        let fallen = cut_by_json(sequence, (side("width"), side("height")));
        let steps = sequence["cuts"].as_array().unwrap();
        let falls = steps.iter().flat_map(|step| step["falls"].as_array().unwrap());
        let pieces: Vec<&str> = falls
            .chain([&sequence["trimmed"]])
            .filter(|fell| fell["becomes"] == "piece")
            .map(|fell| fell["name"].as_str().unwrap())
            .collect();
        let copies = usize::try_from(pattern["copies"].as_u64().unwrap()).unwrap();
        for (_, (width, height)) in fallen.iter().filter(|(n, _)| pieces.contains(&n.as_str()))
        {
            // In sixteenths of an inch, the shorter side first.
            let [a, b] = [*width, *height].map(sixteenths);
            made.extend(std::iter::repeat_n((a.min(b), a.max(b)), copies));
        }
        let start = format!("  {name}, {}, ", pattern["name"].as_str().unwrap());
        let which = pattern["which"].as_str().unwrap();
        for (number, step) in (1..).zip(steps) {
            let piece = step["piece"].as_str().unwrap();
            let edge = step["edge"].as_str().unwrap();
            let words = format!("{start}{which}, cut {number}: {piece}, ");
            let line = text.lines().find(|line| line.starts_with(&words));
            let line = line.unwrap_or_else(|| panic!("{words}: {text}"));
            assert!(line.contains(&format!(", {edge} against the stop, stop ")), "{line}");
            for fell in step["falls"].as_array().unwrap() {
                let fell = fell["name"].as_str().unwrap();
                assert!(line.contains(&format!(" {fell}, ")), "{fell}: {line}");
            }
            cuts += 1;
        }
    }
    made.sort_unstable();
    let mut wanted = vec![(256, 320); 8];
    wanted.extend([(320, 416); 2]);
    assert_eq!(made, wanted, "four mats and backings of 16 × 20 in, one of 20 × 26");
    let told = text.lines().filter(|line| line.contains(" against the stop, ")).count();
    assert_eq!(told, cuts, "each cut once, equal sheets together: {text}");
    assert!(text.contains(": 2 sheets to buy. No plan can "), "{text}");
}

/// Source: by hand: five mats with their backings are ten pieces of 16 x 20 in; two offcuts in
/// hand of 17 x 21 take one each, a sheet of 33 x 41 holds four: two are bought, which with the
/// offcuts are four, and no plan buys fewer than two.
#[test]
fn sheets_to_buy_and_offcuts_are_counted_apart() {
    let bench = bench("apart-counts");
    bench
        .put("stock.csv", b"board,width,height,in_hand,offcut\n*,33,41,,no\n*,17,21,2,yes\n")
        .unwrap();
    let plans = "@a.png.sightedge.ron ".repeat(5);
    let line = format!("cut {plans} --stock @stock.csv --seconds 1");
    let text = bench.run(&line).out;
    let words = "2 sheets to buy, 2 in hand. No plan can buy fewer than 2 sheets.";
    assert!(text.contains(words), "{text}");
    // A mat out of one and a backing out of the other, or the same out of both.
    let owned = ["sheet in hand 2", "sheets in hand 1 and 2, alike"];
    let owned = owned.map(|which| format!(", offcut 17 × 21 in, {which}"));
    assert!(owned.iter().any(|words| text.contains(words)), "{text}");
    let all = json(&bench.run(&format!("{line} --json")).out);
    let plan = &all["boards"][0]["plan"];
    let counts = ["sheets", "sheets_bought", "sheets_in_hand", "drop_outs"];
    let counts = counts.map(|key| plan[key].as_u64().unwrap());
    assert_eq!(counts, [4, 2, 2, 0], "{plan}");
}
