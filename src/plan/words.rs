//! Edits in words: "moved leek from box 2 to box 3".

use super::{Edit, Plan, Planting};
use crate::calendar::{day_text, days_between};
use crate::garden::PlaceId;

/// What an edit does to a plan as it stands now, in the past tense and without a capital.
pub fn edit_words(plan: &Plan, edit: &Edit) -> String {
    match edit {
        Edit::Planting(id, to) => match (plan.planting(*id), to) {
            (None, Some(new)) => format!("planted {}", at(plan, new)),
            (Some(old), None) => format!("took away {}", at(plan, old)),
            (Some(old), Some(new)) => changed(plan, old, new),
            (None, None) => String::from("changed nothing"),
        },
        Edit::Place(id, to) => match (plan.place(id), to) {
            (None, Some(new)) => format!("laid out {}", new.name),
            (Some(old), None) => format!("took away {}", old.name),
            (Some(old), Some(new)) if old.name != new.name => {
                format!("renamed {} to {}", old.name, new.name)
            }
            (Some(old), Some(new)) if old.at != new.at => format!("moved {}", new.name),
            (Some(old), Some(new)) if old.shape != new.shape => format!("resized {}", new.name),
            (Some(_), Some(new)) => format!("changed {}", new.name),
            (None, None) => String::from("changed nothing"),
        },
        Edit::Wish(id, to) => match (plan.wish(*id), to) {
            (None, Some(new)) => format!("wished for {} of {}", new.amount, new.crop),
            (Some(old), None) => format!("dropped the wish for {}", old.crop),
            (Some(_), Some(new)) => format!("changed the wish for {}", new.crop),
            (None, None) => String::from("changed nothing"),
        },
        Edit::Entry(_, Some(entry)) => format!("wrote the diary for {}", day_text(entry.on)),
        Edit::Entry(_, None) => String::from("took back a diary entry"),
        Edit::Record(_) => String::from("changed the record"),
        Edit::Settings(_) => String::from("changed the settings"),
        Edit::Site(_) => String::from("changed the site"),
        Edit::Raising(_) => String::from("changed the raising places"),
        Edit::SetAside(to) if to.len() > plan.set_aside.len() => String::from("set a finding aside"),
        Edit::SetAside(_) => String::from("took a finding up again"),
        Edit::Drawer(_) => String::from("changed the seed drawer"),
        Edit::Closed(_) => String::from("closed a season"),
        Edit::Name(name, _) => format!("named the garden {name}"),
        Edit::Batch(words, _) => words.clone(),
    }
}

fn name(plan: &Plan, id: &PlaceId) -> String {
    plan.place(id).map_or_else(|| id.to_string(), |p| p.name.clone())
}

fn at(plan: &Plan, planting: &Planting) -> String {
    format!("{} in {} {}", planting.name, name(plan, &planting.place), planting.block)
}

fn changed(plan: &Plan, old: &Planting, new: &Planting) -> String {
    if old.place != new.place {
        return format!("moved {} from {} to {}", new.name, name(plan, &old.place), name(plan, &new.place));
    }
    if old.block != new.block {
        return format!(
            "moved {} in {} from {} to {}",
            new.name,
            name(plan, &new.place),
            old.block,
            new.block
        );
    }
    if old.crop != new.crop {
        return format!("put {} in place of {}", new.name, old.name);
    }
    if old.fixed != new.fixed {
        return format!("{} {}", if new.fixed { "fixed" } else { "freed" }, at(plan, new));
    }
    if old.real != new.real {
        return format!("noted what happened to {}", at(plan, new));
    }
    if let (Some(a), Some(b)) = (old.begins(), new.begins())
        && a != b
    {
        let days = days_between(a, b);
        let (size, unit) = if days % 7 == 0 { (days.abs() / 7, "week") } else { (days.abs(), "day") };
        let way = if days > 0 { "later" } else { "earlier" };
        return format!("moved {} {size} {unit}{} {way}", at(plan, new), if size == 1 { "" } else { "s" });
    }
    format!("changed {}", at(plan, new))
}
