//! What setting takes beyond the job file.

use well::Job;
use well::job::SystemKind;

use super::forces::FRICTION;

/// In words, for the reader of the pressure sheet.
pub(super) fn assumptions(job: &Job) -> Vec<String> {
    let mut out: Vec<String> = vec![
        "Pressures of the sheet are gauge, at the surface, fluids at rest, each column of one density. While pumping, \
         friction makes a device see less."
            .into(),
        "A device acts within the bias of its lot and two standard deviations of the mean of its pins, at its \
         temperature; one rated in absolute pressure acts at that pressure whatever stands outside."
            .into(),
        "The packers are set through the treating string of the job file. How the running tool lets go is not in the \
         job file: if pressure works it, it belongs between two steps of the sheet, with the same margins."
            .into(),
        "Volumes to pump are those of fresh water at the temperature and pressure of the middle of the string, and of \
         pipe held along its length. Oil-based fluid and trapped gas take more; the strokes of the tools and the \
         lines at the surface are not in them."
            .into(),
        "Pressure outside the liner, for its strength and that of ball and seat, is the lower of the annulus before \
         and what stands there after setting; outside the string above it is the annulus."
            .into(),
        format!(
            "Contact stress under a packer's thrust is for wall friction alone, with a coefficient of {FRICTION} \
             (memory: rubber on wet rock); the string and its neighbours carry part of it."
        ),
    ];
    match job.file.system.kind {
        SystemKind::HydraulicSet => {
            out.push(
                "Until the open-hole packers have set, the annulus stands outside every device. The pressure sleeve is \
                 opened with the fluid of setting in the string: nothing can be displaced while the toe is closed."
                    .into(),
            );
        }
        SystemKind::FluidActivated => {
            out.push(
                "The string is closed by the plug in the toe tool behind the activation fluid while the casing packer \
                 is set and the string is tested. No spacer stands in the job file, and none is planned."
                    .into(),
            );
        }
    }
    out
}
