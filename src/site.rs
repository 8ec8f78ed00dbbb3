//! stub
/// stub
#[derive(Debug, Clone, PartialEq, Default, serde::Serialize, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SiteSpec {
    /// Name
    pub name: String,
}
