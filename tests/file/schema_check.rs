//! As much of JSON Schema as the generated schema uses.

use std::collections::BTreeSet;

use regex::Regex;
use serde_json::{Map, Value};

/// Keywords that describe and do not restrict, and those that are looked at below.
const KNOWN: [&str; 27] = [
    "$defs",
    "$id",
    "$ref",
    "$schema",
    "additionalProperties",
    "anyOf",
    "const",
    "default",
    "description",
    "enum",
    "format",
    "items",
    "maxItems",
    "maxLength",
    "maximum",
    "minLength",
    "minimum",
    "oneOf",
    "pattern",
    "patternProperties",
    "properties",
    "required",
    "title",
    "type",
    "uniqueItems",
    "unevaluatedProperties",
    "allOf",
];

/// Everything in `value` that `schema` does not allow, each with its path.
pub fn faults(root: &Value, value: &Value) -> Vec<String> {
    let mut faults = Vec::new();
    check(root, root, value, "", &mut faults);
    faults
}

/// Gives back the keys that the schema has looked at.
fn check(
    root: &Value,
    schema: &Value,
    value: &Value,
    path: &str,
    faults: &mut Vec<String>,
) -> BTreeSet<String> {
    let mut seen = BTreeSet::new();
    let Value::Object(rules) = schema else {
        if schema == &Value::Bool(false) {
            faults.push(format!("{path}: not allowed"));
        }
        return seen;
    };
    for key in rules.keys() {
        assert!(
            KNOWN.contains(&key.as_str()),
            "the check does not know {key}"
        );
    }
    if let Some(Value::String(reference)) = rules.get("$ref") {
        // What has a schema of its own is checked by that.
        if let Some(pointer) = reference.strip_prefix('#') {
            let target = root.pointer(pointer).expect("a definition");
            seen.extend(check(root, target, value, path, faults));
        }
    }
    for part in list(rules, "allOf") {
        seen.extend(check(root, part, value, path, faults));
    }
    for (keyword, one) in [("oneOf", true), ("anyOf", false)] {
        let choices = list(rules, keyword);
        let mut fits = Vec::new();
        for choice in choices {
            let mut wrong = Vec::new();
            let keys = check(root, choice, value, path, &mut wrong);
            if wrong.is_empty() {
                fits.push(keys);
            }
        }
        if !choices.is_empty() && (fits.is_empty() || one && fits.len() > 1) {
            faults.push(format!("{path}: fits {} of {keyword}", fits.len()));
        }
        seen.extend(fits.into_iter().flatten());
    }
    scalar(rules, value, path, faults);
    if let Value::Array(items) = value {
        for (index, item) in items.iter().enumerate() {
            if let Some(rule) = rules.get("items") {
                check(root, rule, item, &format!("{path}/{index}"), faults);
            }
        }
        let mut seen_items = items.clone();
        seen_items.sort_by_key(ToString::to_string);
        seen_items.dedup();
        if rules.contains_key("uniqueItems") && seen_items.len() < items.len() {
            faults.push(format!("{path}: something stands twice"));
        }
        if rules.get("maxItems").and_then(Value::as_u64) < Some(items.len() as u64)
            && rules.contains_key("maxItems")
        {
            faults.push(format!("{path}: too many items"));
        }
    }
    if let Value::Object(entries) = value {
        seen.extend(object(root, rules, entries, path, faults));
        if rules.get("unevaluatedProperties") == Some(&Value::Bool(false)) {
            for key in entries.keys().filter(|key| !seen.contains(*key)) {
                faults.push(format!("{path}: unknown {key}"));
            }
        }
    }
    seen
}

fn list<'a>(rules: &'a Map<String, Value>, keyword: &str) -> &'a [Value] {
    let list = rules.get(keyword).and_then(Value::as_array);
    list.map_or(&[], Vec::as_slice)
}

fn object(
    root: &Value,
    rules: &Map<String, Value>,
    entries: &Map<String, Value>,
    path: &str,
    faults: &mut Vec<String>,
) -> BTreeSet<String> {
    let mut seen = BTreeSet::new();
    for key in list(rules, "required").iter().filter_map(Value::as_str) {
        if !entries.contains_key(key) {
            faults.push(format!("{path}: {key} is missing"));
        }
    }
    for (key, value) in entries {
        let below = format!("{path}/{key}");
        let named = rules.get("properties").and_then(|named| named.get(key));
        let patterns = rules.get("patternProperties").and_then(Value::as_object);
        let matching = patterns
            .into_iter()
            .flatten()
            .find(|(pattern, _)| Regex::new(pattern).expect("a pattern").is_match(key));
        if let Some(rule) = named.or(matching.map(|(_, rule)| rule)) {
            check(root, rule, value, &below, faults);
            seen.insert(key.clone());
        } else if let Some(rule) = rules.get("additionalProperties") {
            check(root, rule, value, &below, faults);
            seen.insert(key.clone());
        }
    }
    seen
}

fn scalar(rules: &Map<String, Value>, value: &Value, path: &str, faults: &mut Vec<String>) {
    let of_type = |name: &str| match name {
        "object" => value.is_object(),
        "array" => value.is_array(),
        "string" => value.is_string(),
        "number" => value.is_number(),
        "integer" => value.is_u64() || value.is_i64(),
        "null" => value.is_null(),
        other => panic!("the check does not know the type {other}"),
    };
    let fits = match rules.get("type") {
        Some(Value::String(name)) => of_type(name),
        Some(Value::Array(names)) => names.iter().filter_map(Value::as_str).any(of_type),
        _ => true,
    };
    if !fits {
        faults.push(format!("{path}: is not of type {}", rules["type"]));
    }
    if rules.get("const").is_some_and(|wanted| wanted != value) {
        faults.push(format!("{path}: is not {}", rules["const"]));
    }
    if rules.contains_key("enum") && !list(rules, "enum").contains(value) {
        faults.push(format!("{path}: is none of {}", rules["enum"]));
    }
    if let (Some(text), Some(Value::String(pattern))) = (value.as_str(), rules.get("pattern"))
        && !Regex::new(pattern).expect("a pattern").is_match(text)
    {
        faults.push(format!("{path}: {text} does not match {pattern}"));
    }
    if let (Some(text), Some(most)) = (
        value.as_str(),
        rules.get("maxLength").and_then(Value::as_u64),
    ) && text.chars().count() as u64 > most
    {
        faults.push(format!("{path}: is too long"));
    }
    if let (Some(text), Some(least)) = (
        value.as_str(),
        rules.get("minLength").and_then(Value::as_u64),
    ) && (text.chars().count() as u64) < least
    {
        faults.push(format!("{path}: is too short"));
    }
    if let Some(number) = value.as_f64() {
        let limit = |keyword: &str| rules.get(keyword).and_then(Value::as_f64);
        if limit("minimum").is_some_and(|least| number < least)
            || limit("maximum").is_some_and(|most| number > most)
        {
            faults.push(format!("{path}: {number} is out of range"));
        }
    }
}
