//! The core without operating system, standard library and allocator, down to a linked program.
//!
//! It links, so nothing in it allocates. `cargo xtask test bare` reads the assembly that comes with it: the functions
//! below are reached through pointers that the optimiser knows nothing about, so any value may go into them, and each way
//! to a panic that it cannot rule out is written there. Among them is every function that leads out of the core: the
//! floating-point functions, and what prints and reads text. The core's own functions are all looked at without a list.
#![no_std]
#![no_main]

use arcminute_core::{acuity, device, error, fit, math, optics, refraction, scan};
use core::fmt::Display;
use core::hint::black_box;

/// Never reached; a program has to have one.
#[panic_handler]
fn panicked(_: &core::panic::PanicInfo<'_>) -> ! {
    loop {}
}

/// Where the linker begins: it hands out every function that is looked at.
#[unsafe(no_mangle)]
pub extern "C" fn _start() {
    black_box([
        acuity::parse as *const (),
        acuity::written as *const (),
        device::evaluate_telescope as *const (),
        fit::check as *const (),
        fit::corner_radius_from_effective_diameter as *const (),
        fit::least_web as *const (),
        fit::mount as *const (),
        fit::ways_out as *const (),
        math::abs as *const (),
        math::log10 as *const (),
        math::ln as *const (),
        math::exp as *const (),
        math::pow as *const (),
        math::sqrt as *const (),
        math::hypot as *const (),
        math::sin as *const (),
        math::cos as *const (),
        math::tan as *const (),
        math::atan as *const (),
        math::asin as *const (),
        math::acos as *const (),
        math::atan2 as *const (),
        math::floor as *const (),
        math::ceil as *const (),
        math::round as *const (),
        math::round_to as *const (),
        math::of_decimal as *const (),
        math::normal_below as *const (),
        optics::Train::new::<15> as *const (),
        optics::Train::of as *const (),
        optics::Train::to_eye as *const (),
        optics::field_of_view_at as *const (),
        optics::view as *const (),
        refraction::parse as *const (),
        scan::Cursor::phrase as *const (),
        <acuity::Acuity as Display>::fmt as *const (),
        <error::Error as Display>::fmt as *const (),
        <refraction::Prescription as Display>::fmt as *const (),
    ]);
    #[cfg(feature = "planted")]
    black_box(planted as *const ());
}

/// The panic that has to be found.
#[cfg(feature = "planted")]
fn planted(list: &[u8], place: usize) -> u8 {
    list[place]
}
