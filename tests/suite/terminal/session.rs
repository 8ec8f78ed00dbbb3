//! The program in a pseudo-terminal: keys go in, the screen comes out as a terminal shows it.

use portable_pty::{Child, CommandBuilder, MasterPty, PtySize, native_pty_system};
use std::ffi::OsString;
use std::io::{Read, Write};
use std::path::Path;
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

/// How long a screen may take to show what is waited for.
const PATIENCE: Duration = Duration::from_secs(30);

pub(super) struct Session {
    writer: Box<dyn Write + Send>,
    screen: Arc<Mutex<vt100::Parser>>,
    raw: Arc<Mutex<Vec<u8>>>,
    child: Box<dyn Child + Send + Sync>,
    master: Box<dyn MasterPty + Send>,
}

/// The program: the one that the environment names (a release build), or else the one built with the tests.
pub(super) fn program() -> OsString {
    std::env::var_os("CATCHCROP_BIN").unwrap_or_else(|| OsString::from(env!("CARGO_BIN_EXE_catchcrop")))
}

impl Session {
    /// Starts the program with arguments on a window of that size.
    pub(super) fn start(dir: &Path, args: &[&str], cols: u16, rows: u16) -> Self {
        Self::start_with(dir, args, (cols, rows), &[])
    }
    /// The same with variables in its environment.
    pub(super) fn start_with(
        dir: &Path,
        args: &[&str],
        (cols, rows): (u16, u16),
        variables: &[(&str, &str)],
    ) -> Self {
        let size = PtySize { rows, cols, pixel_width: 0, pixel_height: 0 };
        let pair = native_pty_system().openpty(size).unwrap();
        let mut command = CommandBuilder::new(program());
        command.args(args);
        command.cwd(dir);
        command.env("TERM", "xterm-256color");
        command.env("HOME", dir);
        command.env("XDG_CONFIG_HOME", dir.join("config"));
        command.env_remove("NO_COLOR");
        for (name, value) in variables {
            command.env(name, value);
        }
        let child = pair.slave.spawn_command(command).unwrap();
        drop(pair.slave);
        let mut reader = pair.master.try_clone_reader().unwrap();
        let writer = pair.master.take_writer().unwrap();
        let parser = vt100::Parser::new(rows.try_into().unwrap(), cols.try_into().unwrap(), 0);
        let (screen, raw) = (Arc::new(Mutex::new(parser)), Arc::new(Mutex::new(Vec::new())));
        let (to_screen, to_raw) = (Arc::clone(&screen), Arc::clone(&raw));
        std::thread::spawn(move || {
            let mut bytes = [0; 4096];
            while let Ok(n) = reader.read(&mut bytes) {
                if n == 0 {
                    break;
                }
                to_screen.lock().unwrap().process(&bytes[..n]);
                to_raw.lock().unwrap().extend(&bytes[..n]);
            }
        });
        Self { writer, screen, raw, child, master: pair.master }
    }
    /// What the screen shows.
    pub(super) fn shown(&self) -> String {
        self.screen.lock().unwrap().screen().contents()
    }
    /// Waits until the screen shows a text.
    pub(super) fn wait_for(&self, text: &str) {
        self.wait_until(text, |screen| screen.contains(text));
    }
    /// Waits until the screen is as wanted.
    pub(super) fn wait_until(&self, what: &str, is: impl Fn(&str) -> bool) {
        let start = Instant::now();
        while start.elapsed() < PATIENCE {
            if is(&self.shown()) {
                return;
            }
            std::thread::sleep(Duration::from_millis(5));
        }
        panic!("waited in vain for: {what}\n{}", self.shown());
    }
    /// Bytes written so far, once no more come.
    pub(super) fn written(&self) -> usize {
        let length = || self.raw.lock().unwrap().len();
        let (mut before, mut still) = (length(), 0);
        while still < 20 {
            std::thread::sleep(Duration::from_millis(10));
            still = if length() == before { still + 1 } else { 0 };
            before = length();
        }
        before
    }
    /// Sends bytes as the keyboard would.
    pub(super) fn send(&mut self, bytes: &str) {
        self.writer.write_all(bytes.as_bytes()).unwrap();
        self.writer.flush().unwrap();
    }
    /// Gives the window another size.
    pub(super) fn resize(&mut self, cols: u16, rows: u16) {
        let size = PtySize { rows, cols, pixel_width: 0, pixel_height: 0 };
        self.screen.lock().unwrap().screen_mut().set_size(rows.try_into().unwrap(), cols.try_into().unwrap());
        self.master.resize(size).unwrap();
    }
    /// The number of the process.
    pub(super) fn process(&self) -> u32 {
        self.child.process_id().unwrap()
    }
    /// Waits for the end; whether it went well, and everything that was written.
    pub(super) fn end(mut self) -> (bool, String) {
        let start = Instant::now();
        let status = loop {
            if let Some(status) = self.child.try_wait().unwrap() {
                break status;
            }
            if start.elapsed() > PATIENCE {
                self.child.kill().unwrap();
                panic!("the program does not end\n{}", self.shown());
            }
            std::thread::sleep(Duration::from_millis(5));
        };
        // What was written last may still be on its way through the pseudo-terminal.
        let mut length = usize::MAX;
        while length != self.raw.lock().unwrap().len() {
            length = self.raw.lock().unwrap().len();
            std::thread::sleep(Duration::from_millis(30));
        }
        (status.success(), String::from_utf8_lossy(&self.raw.lock().unwrap()).into_owned())
    }
}

/// Whether the terminal was given back: the other screen left, the cursor shown, pasting as before.
pub(super) fn given_back(written: &str) -> bool {
    let last = |on: &str, off: &str| written.rfind(off) > written.rfind(on);
    last("\x1b[?1049h", "\x1b[?1049l") && last("\x1b[?25l", "\x1b[?25h") && last("\x1b[?2004h", "\x1b[?2004l")
}
