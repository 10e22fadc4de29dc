//! What opens under a word: a sentence or two, and a sketch where that says it better.

use leptos::prelude::*;

use super::Subject;
use super::said::said;
use super::sizes;
use super::sketch::{self, Sketch};

/// What `subject` means.
#[component]
pub fn Meaning(
    /// What is explained.
    subject: Subject,
) -> impl IntoView {
    let (text, drawn): (String, Option<Sketch>) = match subject {
        Subject::Term(term) => (said(term).to_owned(), sketch::of_term(term)),
        Subject::Size(dim) => (sizes::said(dim), Some(sketch::of_size(dim))),
    };
    view! {
        {drawn.map(|sketch| sketch.view())}
        <p>{text}</p>
    }
}

#[cfg(test)]
mod tests {
    use super::super::Term;
    use super::*;
    use headwright::design::{Dim, starter, starter_names};

    /// A sentence or two, no more.
    #[track_caller]
    fn check(text: &str) {
        assert!(text.len() > 30, "{text}");
        assert!(text.ends_with('.'), "{text}");
        assert!(text.starts_with(char::is_uppercase), "{text}");
        assert!(text.matches(". ").count() <= 1, "{text}");
        assert!(text.chars().count() <= 240, "{text}");
    }

    #[test]
    fn every_term_is_explained_in_a_sentence_or_two() {
        for term in Term::ALL {
            check(said(*term));
        }
    }

    #[test]
    fn no_two_terms_are_called_or_explained_alike() {
        for (index, term) in Term::ALL.iter().enumerate() {
            for other in &Term::ALL[..index] {
                assert_ne!(term.words, other.words);
                assert_ne!(said(*term), said(*other));
            }
        }
    }

    #[test]
    fn every_size_of_every_starter_is_explained_with_a_sketch() {
        let designs = starter_names().filter_map(starter);
        let dims: Vec<Dim> = designs
            .flat_map(|design| design.sizes().into_iter().map(|(dim, _)| dim))
            .collect();
        assert!(dims.len() > 200);
        for dim in dims {
            check(&sizes::said(dim));
            assert!(sketch::of_size(dim).shows_something(), "{dim}");
        }
    }
}
