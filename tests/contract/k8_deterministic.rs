//! K8: same inputs and version, same bytes, with any number of threads.

use super::merged::{answer_to, in_parallel, merged};

#[test]
fn the_same_merge_gives_the_same_bytes_again_and_from_many_threads() {
    let some: Vec<_> = merged().iter().filter(|m| m.answer.way == pleach::Way::Trees).step_by(4).collect();
    assert!(some.len() > 30, "only {} structural merges", some.len());
    // Each four times, so that the same merge runs beside itself and beside others.
    let often: Vec<_> = some.iter().flat_map(|m| [m; 3]).collect();
    let texts = in_parallel(&often, |m| {
        let again = answer_to(&m.scenario);
        (again.text, again.conflicts, again.notes, again.combined)
    });
    for (m, again) in often.iter().zip(texts) {
        let first = (&m.answer.text, m.answer.conflicts, &m.answer.notes, &m.answer.combined);
        assert!(first == (&again.0, again.1, &again.2, &again.3), "{} differs from run to run", m.scenario.describe());
    }
}
