//! The WebDriver protocol: JSON over HTTP, one request after the other.

use std::time::Duration;

use serde_json::{Value, json};

/// The longest that the driver may take for one command.
const PATIENCE: Duration = Duration::from_secs(60);
/// The largest answer, a picture of a large page.
const LARGEST_ANSWER: u64 = 128 << 20;

/// A connection to the driver, below one of its addresses.
pub struct Wire {
    agent: ureq::Agent,
    base: String,
}

impl Wire {
    /// Speaks to the driver at `base`.
    pub fn new(base: String) -> Self {
        let agent = ureq::Agent::config_builder()
            .timeout_global(Some(PATIENCE))
            .http_status_as_error(false)
            .build()
            .into();
        Self { agent, base }
    }

    /// The same driver, below `path`.
    pub fn below(&self, path: &str) -> Self {
        Self {
            agent: self.agent.clone(),
            base: format!("{}/{path}", self.base),
        }
    }

    /// Asks for `path`.
    pub fn get(&self, path: &str) -> Result<Value, String> {
        let answer = self.agent.get(self.at(path)).call();
        value_of(answer)
    }

    /// Sends `body` to `path`.
    pub fn post(&self, path: &str, body: &Value) -> Result<Value, String> {
        let answer = self.agent.post(self.at(path)).send_json(body);
        value_of(answer)
    }

    /// Deletes what stands at `path`.
    pub fn delete(&self, path: &str) -> Result<Value, String> {
        let answer = self.agent.delete(self.at(path)).call();
        value_of(answer)
    }

    /// A command of the browser's own protocol.
    pub fn browser_command(&self, method: &str, params: &Value) -> Result<Value, String> {
        self.post(
            "goog/cdp/execute",
            &json!({ "cmd": method, "params": params }),
        )
        .map_err(|error| format!("{method}: {error}"))
    }

    fn at(&self, path: &str) -> String {
        if path.is_empty() {
            self.base.clone()
        } else {
            format!("{}/{path}", self.base)
        }
    }
}

fn value_of(
    answer: Result<ureq::http::Response<ureq::Body>, ureq::Error>,
) -> Result<Value, String> {
    let mut answer = answer.map_err(|error| format!("the driver does not answer: {error}"))?;
    let status = answer.status();
    let body: Value = answer
        .body_mut()
        .with_config()
        .limit(LARGEST_ANSWER)
        .read_json()
        .map_err(|error| format!("the driver's answer is not JSON: {error}"))?;
    let value = &body["value"];
    if status.is_success() {
        Ok(value.clone())
    } else {
        Err(format!("{}: {}", value["error"], value["message"]))
    }
}
