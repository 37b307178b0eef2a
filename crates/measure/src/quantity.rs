//! The shape shared by all quantities that add: one SI number, named constructors and accessors, arithmetic.
//!
//! Arithmetic and constructors are those of `f64` and check nothing; only reading from text promises a finite
//! number within the range of its quantity.

/// Defines a quantity that adds and scales.
///
/// ```text
/// quantity! {
///     /// What it is.
///     Name { "unit in words" from_unit, unit = UNIT; ... }
/// }
/// ```
macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident { $($words:literal $from:ident, $get:ident = $unit:expr;)+ }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            /// None of it.
            pub const ZERO: Self = Self(0.0);

            $crate::quantity::conversions! { $($words $from, $get = $unit;)+ }

            /// The same without its sign.
            #[must_use]
            pub const fn abs(self) -> Self {
                Self(self.0.abs())
            }

            /// The smaller of the two.
            #[must_use]
            pub const fn min(self, other: Self) -> Self {
                Self(self.0.min(other.0))
            }

            /// The larger of the two.
            #[must_use]
            pub const fn max(self, other: Self) -> Self {
                Self(self.0.max(other.0))
            }
        }

        $crate::quantity::arithmetic! { $name }
    };
}

/// A constructor and an accessor for each unit.
macro_rules! conversions {
    ($($words:literal $from:ident, $get:ident = $unit:expr;)+) => {
        $(
            #[doc = concat!("From ", $words, ".")]
            pub const fn $from(value: f64) -> Self {
                Self($unit.to_si(value))
            }

            #[doc = concat!("In ", $words, ".")]
            pub const fn $get(self) -> f64 {
                $unit.count(self.0)
            }
        )+
    };
}

/// Sums, differences, multiples and the ratio of two of a kind.
macro_rules! arithmetic {
    ($name:ident) => {
        impl std::ops::Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl std::ops::Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl std::ops::Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }

        impl std::ops::AddAssign for $name {
            fn add_assign(&mut self, other: Self) {
                self.0 += other.0;
            }
        }

        impl std::ops::SubAssign for $name {
            fn sub_assign(&mut self, other: Self) {
                self.0 -= other.0;
            }
        }

        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(parts: I) -> Self {
                parts.fold(Self::ZERO, |sum, part| sum + part)
            }
        }

        impl<'a> std::iter::Sum<&'a $name> for $name {
            fn sum<I: Iterator<Item = &'a $name>>(parts: I) -> Self {
                parts.copied().sum()
            }
        }

        impl std::ops::Mul<f64> for $name {
            type Output = Self;
            fn mul(self, times: f64) -> Self {
                Self(self.0 * times)
            }
        }

        impl std::ops::Mul<$name> for f64 {
            type Output = $name;
            fn mul(self, quantity: $name) -> $name {
                quantity * self
            }
        }

        impl std::ops::Div<f64> for $name {
            type Output = Self;
            fn div(self, by: f64) -> Self {
                Self(self.0 / by)
            }
        }

        impl std::ops::Div for $name {
            type Output = f64;
            fn div(self, other: Self) -> f64 {
                self.0 / other.0
            }
        }
    };
}

/// `a * b = c` for three quantities in coherent SI units, with the divisions that follow from it.
macro_rules! product {
    ($a:ident [$from_a:ident $a_si:ident] * itself = $c:ident [$from_c:ident $c_si:ident]) => {
        $crate::quantity::product! { @times $a $a_si, $a $a_si, $c $from_c }
        $crate::quantity::product! { @over $c $c_si, $a $a_si, $a $from_a }
    };
    ($a:ident [$from_a:ident $a_si:ident] * $b:ident [$from_b:ident $b_si:ident] = $c:ident [$from_c:ident $c_si:ident]) => {
        $crate::quantity::product! { @times $a $a_si, $b $b_si, $c $from_c }
        $crate::quantity::product! { @times $b $b_si, $a $a_si, $c $from_c }
        $crate::quantity::product! { @over $c $c_si, $a $a_si, $b $from_b }
        $crate::quantity::product! { @over $c $c_si, $b $b_si, $a $from_a }
    };
    (@times $a:ident $a_si:ident, $b:ident $b_si:ident, $c:ident $from_c:ident) => {
        impl std::ops::Mul<$b> for $a {
            type Output = $c;
            fn mul(self, other: $b) -> $c {
                $c::$from_c(self.$a_si() * other.$b_si())
            }
        }
    };
    (@over $c:ident $c_si:ident, $a:ident $a_si:ident, $b:ident $from_b:ident) => {
        impl std::ops::Div<$a> for $c {
            type Output = $b;
            fn div(self, other: $a) -> $b {
                $b::$from_b(self.$c_si() / other.$a_si())
            }
        }
    };
}

/// `FromStr` by a rule of reading, and `Display` with its metric twin.
///
/// ```text
/// text! { Name: NOTATION, rule; trade "R-" us "" 1; metric "RSI " si "" 2 }
/// ```
/// writes `us()` between the two texts with up to one decimal, and `si()` with up to two.
macro_rules! text {
    ($name:ident: $notation:ident, $rule:expr; trade $before:literal $get:ident $after:literal $places:literal) => {
        impl std::str::FromStr for $name {
            type Err = $crate::ReadError;
            fn from_str(text: &str) -> Result<Self, Self::Err> {
                $crate::read::read(text, &$notation, $rule).map(Self)
            }
        }

        /// In the trade's unit; `{:.1}` sets the decimals.
        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                $crate::write::Written::up_to($places, $before, self.$get(), $after).fmt(f)
            }
        }
    };
    (
        $name:ident: $notation:ident, $rule:expr;
        trade $before:literal $get:ident $after:literal $places:literal;
        metric $metric_before:literal $metric_get:ident $metric_after:literal $metric_places:literal
    ) => {
        $crate::quantity::text! { $name: $notation, $rule; trade $before $get $after $places }

        impl $name {
            /// For writing in its metric unit; `{:.1}` sets the decimals.
            pub const fn metric(self) -> $crate::Written {
                $crate::Written::up_to($metric_places, $metric_before, self.$metric_get(), $metric_after)
            }
        }
    };
}

pub(crate) use {arithmetic, conversions, product, quantity, text};
