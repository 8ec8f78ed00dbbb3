//! Seedlings against the room where they are raised.

use super::hours::runs;
use super::words::{count, day, inside, list};
use super::{Context, Finding, Rule, Weight};
use crate::calendar::Week;
use crate::units::num;
use std::collections::BTreeMap;

const SOURCE: &str = "your own raising places; a pot takes the room of four tray cells and a fifth more is sown as \
                      spare (common practice)";

pub(super) const RULE: Rule = Rule {
    code: "trays-short",
    title: "More seedlings than room to raise them",
    explain: "Each station of plants raised indoors takes one tray cell from sowing until it is set out, four once \
              it is potted on, and a fifth more are sown as spare. The weeks in which they need more cells than \
              your raising places hold are minded, once for each stretch of such weeks. With no raising place at \
              all every raised planting is minded.\n\
              Source: common practice.",
    run,
};

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    let room: u32 = context.plan.raising.iter().map(|r| u32::from(r.cells)).sum();
    let mut by_week: BTreeMap<Week, f64> = BTreeMap::new();
    let mut names: BTreeMap<Week, Vec<(f64, String)>> = BTreeMap::new();
    for planting in context.judged() {
        for (week, cells) in planting.tray_cells() {
            if week.sunday() >= context.from && week.monday() <= context.to {
                *by_week.entry(week).or_default() += cells;
                names.entry(week).or_default().push((cells, inside(&planting.name)));
            }
        }
    }
    for (first, last, worst) in runs(&by_week, f64::from(room)) {
        let mut there = names.get(&worst).cloned().unwrap_or_default();
        there.sort_by(|a, b| b.0.total_cmp(&a.0).then_with(|| a.1.cmp(&b.1)));
        let mut most: Vec<String> = Vec::new();
        for (_, name) in there {
            if most.len() < 3 && !most.contains(&name) {
                most.push(name);
            }
        }
        let need = num::word(num::round_u(by_week.get(&worst).copied().unwrap_or_default()));
        let cells = count(need, "tray cell", "tray cells");
        let words = if first == last {
            format!(
                "In the week of {} seedlings need {cells}, and your raising places hold {room}.",
                day(worst.monday())
            )
        } else {
            format!(
                "From the week of {} to that of {} seedlings need more room than there is: {cells} in the week of \
                 {}, and your raising places hold {room}.",
                day(first.monday()),
                day(last.monday()),
                day(worst.monday())
            )
        };
        let words = if room == 0 {
            format!(
                "From the week of {} on seedlings need {cells}, and you have entered no place to raise them. Most are {}.",
                day(first.monday()),
                list(&most)
            )
        } else {
            format!("{words} Most are {}.", list(&most))
        };
        let remedy = format!("Buy {} as young plants, or sow some of them 2 weeks apart.", list(&most));
        out.push(
            Finding::new(RULE.code, Weight::Mind, words, remedy, SOURCE)
                .on(first.monday(), Some(last.sunday())),
        );
    }
}
