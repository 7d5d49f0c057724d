//! The survey: stations, readers for CSV and WITSML, position along the hole.
