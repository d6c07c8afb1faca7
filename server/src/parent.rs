//! The process that started the server: when it's gone, nobody will say `exit`.

use std::time::Duration;

/// How often it's looked for.
const PAUSE: Duration = Duration::from_secs(3);

/// Until the process with this number is gone. Without a number, or where processes can't be looked for, never.
pub async fn gone(process: Option<u32>) {
    loop {
        match process {
            Some(process) if !is_alive(process) => return,
            _ => tokio::time::sleep(PAUSE).await,
        }
    }
}

#[cfg(unix)]
fn is_alive(process: u32) -> bool {
    use rustix::process::{test_kill_process, Pid};
    let Some(pid) = i32::try_from(process).ok().and_then(Pid::from_raw) else { return true };
    // A process of somebody else may not be signalled, but it's there.
    !matches!(test_kill_process(pid), Err(rustix::io::Errno::SRCH))
}

#[cfg(not(unix))]
fn is_alive(_: u32) -> bool {
    true
}
