//! What `bar` answers as a table to be read, in the units of the rule.

use std::fmt::{self, Write};

use super::{BarAnswer, PieceAnswer, PlanAnswer};
use crate::bar::LossMass;
use crate::drift::{self, Depth};
use crate::units::{
    GRAMS_PER_KG, KG_PER_OUNCE, Length, MM_PER_INCH, Rule, System, show_length, show_number,
    unit_word,
};

/// A table being written.
struct Table {
    text: String,
    system: System,
}

/// The table of `answer` for a bar of `section`, in words, whose cut is on `rule`.
pub(super) fn bar(answer: &BarAnswer, section: &str, rule: Rule) -> String {
    let mut table = Table::new(rule.system());
    // Nothing fails that is written to a text.
    let _ = table.ledger(answer, section, rule);
    let _ = table.area(&answer.plan);
    let _ = table.marks(&answer.plan);
    let _ = table.upsets(&answer.plan);
    let _ = table.drifts(&answer.plan.drifts);
    let _ = table.hot(&answer.plan);
    for caution in &answer.plan.told {
        let _ = writeln!(table.text, "\n{caution}");
    }
    table.text
}

/// The table of what a piece gives.
pub(super) fn piece(answer: &PieceAnswer, system: System) -> String {
    let mut table = Table::new(system);
    let _ = table.piece(answer);
    table.text
}

impl Table {
    const fn new(system: System) -> Self {
        Self {
            text: String::new(),
            system,
        }
    }

    /// A mass in grams to the tenth, or in ounces to the hundredth.
    fn mass(&self, kg: f64) -> String {
        match self.system {
            System::Metric => format!("{:.1}", kg * GRAMS_PER_KG),
            System::Imperial => format!("{:.2}", kg / KG_PER_OUNCE),
        }
    }

    fn mass_unit(&self) -> &'static str {
        match self.system {
            System::Metric => "g",
            System::Imperial => "oz",
        }
    }

    fn unit(&self) -> &'static str {
        unit_word(self.system)
    }

    /// A length on the rule: hundredths of a millimetre, or the fraction of an inch.
    fn on_rule(&self, mm: f64) -> String {
        match self.system {
            System::Metric => format!("{mm:.2}"),
            System::Imperial => show_length(Length::mm(mm), self.system),
        }
    }

    /// A length that is read off a caliper: hundredths of a millimetre, or thousandths of an inch.
    fn fine(&self, mm: f64) -> String {
        match self.system {
            System::Metric => format!("{mm:.2}"),
            System::Imperial => format!("{:.3}", mm / MM_PER_INCH),
        }
    }

    /// An estimated length: tenths of a millimetre, or hundredths of an inch.
    fn rough(&self, mm: f64) -> String {
        match self.system {
            System::Metric => format!("{mm:.1}"),
            System::Imperial => format!("{:.2}", mm / MM_PER_INCH),
        }
    }

    /// A line of the ledger.
    fn mass_line(&mut self, name: &str, kg: f64, spread_kg: Option<f64>, of: f64) -> fmt::Result {
        let spread = spread_kg.map_or_else(String::new, |kg| self.mass(kg));
        let mass = self.mass(kg);
        writeln!(
            self.text,
            "  {name:<28}{mass:>9}{spread:>9}{:>8.1} %",
            100.0 * kg / of
        )
    }

    fn losses(&mut self, losses: &[LossMass], of: f64) -> fmt::Result {
        for loss in losses {
            self.mass_line(loss.name, loss.mass_kg, Some(loss.spread_kg), of)?;
        }
        Ok(())
    }

    fn ledger(&mut self, answer: &BarAnswer, section: &str, rule: Rule) -> fmt::Result {
        let of = answer.cut_mass_kg;
        writeln!(self.text, "Where the cut goes, in {}", self.mass_unit())?;
        writeln!(
            self.text,
            "  {:<28}{:>9}{:>9}{:>10}",
            "", "mass", "spread", "of cut"
        )?;
        self.mass_line("finished head", answer.finished_kg, None, of)?;
        self.losses(&answer.losses, of)?;
        self.mass_line(
            "billet, expected",
            answer.billet_mass_kg,
            Some(answer.spread_kg),
            of,
        )?;
        self.mass_line("reserve", answer.reserve_mass_kg, None, of)?;
        let rounding = format!("up to the rule, {rule}");
        self.mass_line(&rounding, answer.rounding_mass_kg, None, of)?;
        self.mass_line("cut", of, None, of)?;
        let [least, most] = answer.finished_range_kg.map(|kg| self.mass(kg));
        writeln!(
            self.text,
            "Cut {} {} of {section}. Expect {} {} before grinding, and {least} to {most} {} after.",
            self.on_rule(answer.cut_length_mm),
            self.unit(),
            self.mass(answer.before_grinding_kg),
            self.mass_unit(),
            self.mass_unit(),
        )
    }

    fn area(&mut self, plan: &PlanAnswer) -> fmt::Result {
        writeln!(
            self.text,
            "\nArea needed along the head, x in {} in front of the handle axis",
            self.unit()
        )?;
        let bar = format!("bar, {}", self.unit());
        writeln!(
            self.text,
            "  {:>8}{:>8}{bar:>12}{:>12}  work",
            "from", "to", "need/bar"
        )?;
        for stretch in &plan.area_curve.stretches {
            writeln!(
                self.text,
                "  {:>8}{:>8}{:>12}{:>12.2}  {}",
                self.rough(stretch.from_mm),
                self.rough(stretch.to_mm),
                self.rough(stretch.bar_length_mm),
                stretch.ratio,
                stretch.work.word()
            )?;
        }
        Ok(())
    }

    fn marks(&mut self, plan: &PlanAnswer) -> fmt::Result {
        let marks = &plan.marks;
        writeln!(
            self.text,
            "\nMarks, in {} from the {} end of a billet of {} {} (centre-punch dots: chalk burns off)",
            self.unit(),
            marks.from,
            show_length(Length::mm(marks.length_mm), self.system),
            self.unit()
        )?;
        writeln!(
            self.text,
            "  {:<28}{:>9}{:>11}{:>10}",
            "place", "at", "left over", "rest"
        )?;
        for mark in &marks.marks {
            writeln!(
                self.text,
                "  {:<28}{:>9}{:>11}{:>10}",
                mark.place,
                self.on_rule(mark.at_mm),
                self.fine(mark.left_over_mm),
                self.on_rule(mark.rest_mm)
            )?;
        }
        Ok(())
    }

    fn upsets(&mut self, plan: &PlanAnswer) -> fmt::Result {
        writeln!(
            self.text,
            "\nUpset, x in {} in front of the handle axis",
            self.unit()
        )?;
        if plan.upsets.is_empty() {
            return writeln!(self.text, "  nothing");
        }
        let bar = format!("bar, {}", self.unit());
        writeln!(
            self.text,
            "  {:>8}{:>8}{bar:>12}{:>11}{:>12}  verdict",
            "from", "to", "diameters", "need/bar"
        )?;
        for upset in &plan.upsets {
            writeln!(
                self.text,
                "  {:>8}{:>8}{:>12}{:>11.2}{:>12.2}  {}",
                self.rough(upset.from_mm),
                self.rough(upset.to_mm),
                self.rough(upset.bar_length_mm),
                upset.diameters,
                upset.ratio,
                upset.told
            )?;
        }
        Ok(())
    }

    fn drifts(&mut self, plan: &drift::Plan) -> fmt::Result {
        let before = &plan.opening;
        writeln!(
            self.text,
            "\nDrifts, in {}, from an opening of {} {}",
            self.unit(),
            before.size.words(self.system),
            before.shape
        )?;
        writeln!(
            self.text,
            "  {:<7}{:>15}{:>10}{:>15}{:>13}  {:<25}from the bottom",
            "drift", "greatest", "stretch", "cheek wall", "outer width", "from the top"
        )?;
        for (number, drift) in (1..).zip(&plan.drifts) {
            let wall = [drift.wall_outer_kept_mm, drift.wall_sideways_mm].map(|mm| self.rough(mm));
            writeln!(
                self.text,
                "  {number:<7}{:>15}{:>8.0} %{:>15}{:>13}  {:<25}{}",
                drift.section.words(self.system),
                drift.stretch_at_mouth_percent.max(0.0),
                wall.join(" to "),
                self.rough(drift.outer_width_sideways_mm),
                Depth::words(drift.top, self.system),
                Depth::words(drift.bottom, self.system)
            )?;
        }
        if let Some(bolster) = plan.bolster {
            writeln!(
                self.text,
                "  The bolster’s hole: {}",
                bolster.hole.words(self.system)
            )?;
        }
        writeln!(
            self.text,
            "  The last drift is {}. The finished eye, cold: {} at the waist.",
            plan.made_hot(self.system),
            plan.finished_eye(self.system)
        )?;
        let own = plan.own.iter().flat_map(|own| {
            let steps = own.steps.iter().flat_map(|step| {
                let number = step.number;
                step.notes.iter().map(move |note| (Some(number), note))
            });
            steps.chain(own.notes.iter().map(|note| (None, note)))
        });
        for (number, note) in plan.notes.iter().map(|note| (None, note)).chain(own) {
            let of = number.map_or_else(String::new, |number| format!("Your drift {number}: "));
            writeln!(self.text, "  {of}{}", note.sentence(self.system))?;
        }
        Ok(())
    }

    fn hot(&mut self, plan: &PlanAnswer) -> fmt::Result {
        let hot = &plan.hot_dimensions;
        let heat = match self.system {
            System::Metric => format!("{:.0} °C", hot.celsius),
            System::Imperial => format!("{:.0} °F", hot.celsius * 1.8 + 32.0),
        };
        writeln!(
            self.text,
            "\nHot sizes at {heat}, in {}: {:.2} % longer, give or take {} % of that\n({})",
            self.unit(),
            100.0 * hot.growth,
            show_number(100.0 * hot.uncertainty),
            hot.source
        )?;
        writeln!(self.text, "  {:<28}{:>9}{:>11}", "size", "cold", "hot")?;
        for size in &hot.sizes {
            writeln!(
                self.text,
                "  {:<28}{:>9}{:>11}",
                size.size,
                self.on_rule(size.cold_mm),
                self.fine(size.hot_mm)
            )?;
        }
        Ok(())
    }

    fn piece(&mut self, answer: &PieceAnswer) -> fmt::Result {
        let of = answer.piece_mass_kg;
        writeln!(self.text, "Where the piece goes, in {}", self.mass_unit())?;
        writeln!(
            self.text,
            "  {:<28}{:>9}{:>9}{:>10}",
            "", "mass", "spread", "of it"
        )?;
        self.mass_line("piece", of, None, of)?;
        self.losses(&answer.losses, of)?;
        self.mass_line(
            "finished head",
            answer.finished_kg,
            Some(answer.spread_kg),
            of,
        )?;
        let [least, most] = answer.finished_range_kg.map(|kg| self.mass(kg));
        writeln!(
            self.text,
            "Expect {} {unit} before grinding, and {least} to {most} {unit} after.",
            self.mass(answer.before_grinding_kg),
            unit = self.mass_unit()
        )?;
        writeln!(self.text, "\nSizes that are moved for it")?;
        if answer.changed.is_empty() {
            writeln!(self.text, "  none")?;
        } else {
            writeln!(self.text, "  {:<28}{:>12}{:>20}", "size", "from", "to")?;
        }
        for change in &answer.changed {
            writeln!(
                self.text,
                "  {:<28}{:>12}{:>20}",
                change.size, change.from, change.to
            )?;
        }
        if !answer.holds_missed.is_empty() {
            let holds = answer.holds_missed.join(", ");
            writeln!(self.text, "\nHolds that cannot be kept: {holds}")?;
        }
        Ok(())
    }
}
