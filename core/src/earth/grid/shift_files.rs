//! Files by which a written-out definition would shift its datum.

use serde_json::Value;

use super::GridError;

/// The files by which a definition shifts its datum and goes on without (`@`), parted by commas. None is ever here: PROJ reads what is
/// inside the library alone. `null` is no file but no shift, on purpose.
///
/// # References
/// PROJ 9.6, documentation of `+nadgrids`: names parted by commas, `@` before one that may be missing, `@null`.
pub(super) fn missing(described: &str, definition: &str) -> Result<Option<String>, GridError> {
    let whole: Value = serde_json::from_str(described).unwrap_or_default();
    let parameters = whole.pointer("/transformation/parameters").and_then(Value::as_array);
    let lists = parameters.into_iter().flatten().filter_map(|parameter| parameter.get("value").and_then(Value::as_str));
    let names: Vec<&str> =
        lists.flat_map(|list| list.split(',')).map(str::trim).filter(|name| name.trim_start_matches('@') != "null").collect();
    let needed: Vec<&str> = names.iter().copied().filter(|name| !name.starts_with('@')).collect();
    if !needed.is_empty() {
        return Err(GridError::ShiftFile(definition.into(), needed.join(", ")));
    }
    let left_out: Vec<&str> = names.iter().map(|name| name.trim_start_matches('@')).collect();
    Ok((!left_out.is_empty()).then(|| left_out.join(", ")))
}
