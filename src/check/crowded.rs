//! More plants than the block holds.

use super::words::{cap, count, length, name, stand};
use super::{Context, Finding, Rule, Weight};
use crate::garden::{capacity, plants_in};

const SOURCE: &str = "spacing of the crop book, plants placed one by one half a spacing from the edge; Virginia \
                      Cooperative Extension 426-335 for the ranges of spacing";

pub(super) const RULE: Rule = Rule {
    code: "too-many-plants",
    title: "More plants than there is room for",
    explain: "Plants are placed one by one, half a spacing from the boards, on a square grid or in shifted columns, \
              and the best count is taken; area times density is never used. In a pot the count goes by the least \
              volume and depth a plant needs. Above the count at the narrow spacing of the crop it is a stop; \
              between the wide and the narrow spacing it is a note, since that is right for baby leaves and small \
              roots.\n\
              Source: ranges of spacing of Virginia Cooperative Extension 426-335 and the Kansas State master \
              gardeners; pots by Texas A&M AgriLife E-545.",
    run,
};

fn run(context: &Context<'_>, out: &mut Vec<Finding>) {
    let settings = &context.plan.settings;
    for planting in context.judged() {
        let (Some(crop), Some(place)) = (context.crop(planting), context.place(&planting.place)) else {
            continue;
        };
        let (down, across) = place.grid(settings.cell);
        if !planting.block.within(down, across) {
            continue;
        }
        let (rows, cols) = (planting.block.rows, planting.block.cols);
        let at = stand(context, planting);
        let subject = cap(&name(planting));
        if planting.plants == 0 {
            let words = format!("{subject} in {at} is planned with 0 plants, so at least 1 is missing.");
            let remedy = format!("Give it at least 1 plant, or take {} away.", name(planting));
            out.push(Finding::new(RULE.code, Weight::Mind, words, remedy, SOURCE).of(planting));
            continue;
        }
        let wide = capacity(crop, place, rows, cols, settings.cell);
        if place.is_pot() {
            // A pot in which not one fits is the business of the rules about pots.
            if wide > 0 && planting.plants > wide {
                let words = format!(
                    "{subject} in {at} is planned with {}; by its volume and width the pot holds {wide}.",
                    count(planting.plants, "plant", "plants"),
                );
                let remedy = format!("Plant {wide}, or take a larger pot.");
                out.push(Finding::new(RULE.code, Weight::Stop, words, remedy, SOURCE).of(planting));
            }
            continue;
        }
        let dense = plants_in(crop.spacing.dense, rows, cols, settings.cell);
        let spacing = |l| length(l, settings.measure);
        let fit = if dense == 0 { String::from("not even 1 fits") } else { format!("at most {dense} fit") };
        if planting.plants > dense {
            let words = format!(
                "{subject} in {at} is planned with {}; {fit} there at {}, the narrowest spacing for it.",
                count(planting.plants, "plant", "plants"),
                spacing(crop.spacing.dense)
            );
            let remedy = if dense == 0 {
                format!("Give {} more cells, or grow something smaller there.", name(planting))
            } else {
                format!("Plant {dense} at most, or give {} more cells.", name(planting))
            };
            out.push(Finding::new(RULE.code, Weight::Stop, words, remedy, SOURCE).of(planting));
        } else if planting.plants > wide {
            let words = format!(
                "{subject} in {at} is planned with {}. That is close: {wide} fit at {}, the spacing for full-sized \
                 plants, and {dense} at {} for small or early ones.",
                count(planting.plants, "plant", "plants"),
                spacing(crop.spacing.wide),
                spacing(crop.spacing.dense)
            );
            let remedy = format!("Keep it for a small or early harvest, or plant {wide}.");
            out.push(Finding::new(RULE.code, Weight::Note, words, remedy, SOURCE).of(planting));
        }
    }
}
