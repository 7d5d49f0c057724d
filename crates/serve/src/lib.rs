//! The local page: one server on the loopback address that shows a job, its plan and its simulated
//! run, and saves the job file whole or not at all.
//!
//! Nothing is drawn here: the page asks for figures (`answer`) and draws them itself. No path
//! outside the job folder is read or written; requests from other pages are refused (`guard`).

mod answer;
mod ask;
mod assets;
pub mod briefing;
mod desk;
mod guard;
mod openapi;
mod routes;
mod samples;

pub use desk::{Desk, Printer};
pub use guard::Token;
pub use openapi::document as openapi;
pub use routes::router;

use std::net::{IpAddr, Ipv4Addr, SocketAddr};

/// Why the page cannot be served.
#[derive(Debug, thiserror::Error)]
pub enum ServeError {
    /// The address is taken or not allowed.
    #[error("the address {address} cannot be used: {reason}")]
    Address {
        /// The address.
        address: SocketAddr,
        /// Why.
        reason: std::io::Error,
    },
    /// The server could not go on.
    #[error("the server stopped: {0}")]
    Stopped(#[from] std::io::Error),
}

/// Where the page is served.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// Address: the loopback unless it is shared.
    pub address: IpAddr,
    /// Port; any free one where 0.
    pub port: u16,
}

impl Default for Place {
    fn default() -> Self {
        Self { address: IpAddr::V4(Ipv4Addr::LOCALHOST), port: 0 }
    }
}

/// Serves a desk until it is told to stop; `ready` is told the address once it listens.
///
/// # Errors
/// Where the address cannot be used, or the server cannot go on.
pub fn serve(desk: Desk, place: &Place, ready: impl FnOnce(SocketAddr)) -> Result<(), ServeError> {
    let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().build()?;
    runtime.block_on(async {
        let address = SocketAddr::new(place.address, place.port);
        let refused = |reason| ServeError::Address { address, reason };
        let listener = tokio::net::TcpListener::bind(address).await.map_err(refused)?;
        let here = listener.local_addr().map_err(refused)?;
        let app = router(desk);
        ready(here);
        axum::serve(listener, app).with_graceful_shutdown(stop()).await?;
        Ok(())
    })
}

/// Waits until a person stops the program.
async fn stop() {
    // Where no signal can be waited for, the server runs until it is ended from outside.
    if tokio::signal::ctrl_c().await.is_err() {
        std::future::pending::<()>().await;
    }
}
