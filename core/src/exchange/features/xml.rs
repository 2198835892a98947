//! XML within limits that keep the memory small.

use std::collections::HashSet;

use roxmltree::{Document, Error, Node, ParsingOptions};

use super::error::{ImportError, Unread};
use super::gather::Gather;

/// Most elements and texts of a file: at about a hundred bytes each, what is held stays below 300 MB.
const MOST_NODES: usize = 2_500_000;
/// Most attributes of a file.
const MOST_ATTRIBUTES: usize = 1_500_000;
/// Most attributes of one element: each is held against all others of it.
const MOST_OF_ONE: usize = 200;
/// Most different prefixes: an element that declares one copies all that are in force around it.
const MOST_PREFIXES: usize = 64;
/// Most declarations of prefixes.
const MOST_DECLARATIONS: usize = 200_000;

/// A parsed document.
pub(super) fn parse(text: &str) -> Result<Document<'_>, ImportError> {
    let count = |wanted: u8| text.bytes().filter(|byte| *byte == wanted).count();
    if count(b'<') > MOST_NODES || count(b'=') > MOST_ATTRIBUTES {
        return Err(ImportError::TooMany { most: MOST_NODES });
    }
    if most_of_one(text) > MOST_OF_ONE {
        return Err(ImportError::TooMany { most: MOST_OF_ONE });
    }
    if text.matches("xmlns").take(MOST_DECLARATIONS + 1).count() > MOST_DECLARATIONS || prefixes(text) > MOST_PREFIXES {
        return Err(ImportError::TooMany { most: MOST_DECLARATIONS });
    }
    let options = ParsingOptions { nodes_limit: MOST_NODES as u32, ..ParsingOptions::default() };
    Document::parse_with_options(text, options).map_err(|error| unreadable(text, &error))
}

/// Why a text cannot be parsed, at its line.
fn unreadable(text: &str, error: &Error) -> ImportError {
    if matches!(error, Error::UnexpectedEndOfStream | Error::UnclosedRootNode | Error::NoRootNode) {
        return ImportError::Unreadable { line: text.lines().count().max(1), why: Unread::Ends };
    }
    if matches!(error, Error::DtdDetected) {
        let before = text.split("<!DOCTYPE").next().unwrap_or_default();
        return ImportError::Unreadable { line: before.matches('\n').count() + 1, why: Unread::Dtd };
    }
    let line = error.pos().row as usize;
    if matches!(error, Error::UnknownEntityReference(..) | Error::MalformedEntityReference(_) | Error::EntityReferenceLoop(_)) {
        return ImportError::Unreadable { line, why: Unread::Entity };
    }
    let detail = error.to_string();
    let detail = detail.rsplit_once(" at ").map_or(detail.as_str(), |(before, _)| before);
    ImportError::Unreadable { line, why: Unread::told(detail) }
}

/// The most equals signs outside quotes in one tag; comments and plain character data are no tags.
fn most_of_one(text: &str) -> usize {
    let (mut most, mut rest) = (0, text);
    while let Some((_, tag)) = rest.split_once('<') {
        let skipped = [("!--", "-->"), ("![CDATA[", "]]>"), ("?", "?>")].iter().find(|(start, _)| tag.starts_with(start));
        if let Some((_, end)) = skipped {
            rest = tag.split_once(end).map_or("", |(_, after)| after);
            continue;
        }
        let (mut quote, mut equals, mut length) = (None, 0, tag.len());
        for (index, byte) in tag.bytes().enumerate() {
            match (quote, byte) {
                (None, b'"' | b'\'') => quote = Some(byte),
                (Some(open), _) if open == byte => quote = None,
                (None, b'=') => equals += 1,
                (None, b'>') => {
                    length = index;
                    break;
                }
                _ => {}
            }
        }
        most = most.max(equals);
        rest = tag.get(length..).unwrap_or_default();
    }
    most
}

fn prefixes(text: &str) -> usize {
    let prefix = |rest: &str| rest.chars().take_while(|c| *c != '=' && !c.is_whitespace()).take(80).collect::<String>();
    let found: HashSet<String> = text.split("xmlns:").skip(1).map(prefix).take(MOST_DECLARATIONS).collect();
    found.len()
}

/// The elements of this name below a node, at any depth, without walking down the stack.
pub(super) fn below<'a, 'd>(node: Node<'a, 'd>, name: &'static str) -> impl Iterator<Item = Node<'a, 'd>> {
    node.descendants().filter(move |child| is(*child, name))
}

/// The children of this name.
pub(super) fn children<'a, 'd>(node: Node<'a, 'd>, name: &'static str) -> impl Iterator<Item = Node<'a, 'd>> {
    node.children().filter(move |child| is(*child, name))
}

/// Whether an element has a name, in whatever namespace.
pub(super) fn is(node: Node<'_, '_>, name: &str) -> bool {
    node.is_element() && node.tag_name().name() == name
}

/// The text of the first child of this name.
pub(super) fn text_of<'a>(node: Node<'a, '_>, name: &'static str) -> Option<&'a str> {
    children(node, name).next().and_then(|child| child.text()).map(str::trim).filter(|text| !text.is_empty())
}

/// Tells how far the reading has come, now and then.
pub(super) fn tick(gather: &mut Gather<'_>, index: usize, node: Node<'_, '_>) -> Result<(), ImportError> {
    let (done, whole) = (node.range().start as u64, node.document().input_text().len() as u64);
    if index.is_multiple_of(256) { gather.tick(done, whole) } else { Ok(()) }
}
