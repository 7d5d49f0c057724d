//! How large a file may be. Every size a file claims or has is held against one of these before
//! memory is taken for it, so that no file can exhaust the machine.

/// Bytes of a file.
pub(super) const FILE_BYTES: usize = 512 << 20;
/// Bytes of one line.
pub(super) const LINE_BYTES: usize = 1 << 20;
/// Sections.
pub(super) const SECTIONS: usize = 1000;
/// Lines of all header sections together.
pub(super) const HEADER_LINES: usize = 100_000;
/// Curves.
pub(super) const CURVES: usize = 10_000;
/// Numbers held in all curves together.
const CELLS: usize = 64_000_000;

/// The numbers a file of `bytes` may hold. A cell takes two bytes of text at the least; rows
/// padded to the declared number of curves may add to that, but not without bound.
pub(super) fn cells(bytes: usize) -> usize {
    CELLS.min(bytes.saturating_add(1_000_000))
}
