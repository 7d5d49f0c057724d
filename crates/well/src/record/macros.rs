//! `record!` and `choice!`: one description gives the type, its reader and its documentation.

/// Declares a record of the job file.
///
/// Each field is `name: Type [how]` where `how` is `required`, `optional` (`Option<Type>`),
/// `default "text"`, `assume "text" because "basis"` (taken and listed as an assumption) or
/// `list` (`Vec<Type>`, empty when absent).
macro_rules! record {
    ($(#[doc = $doc:literal])+ $vis:vis struct $name:ident {
        $( $(#[doc = $fdoc:literal])+ $field:ident : $ty:ty [ $($how:tt)+ ] ),+ $(,)?
    }) => {
        $(#[doc = $doc])+
        #[derive(Debug, Clone, PartialEq)]
        $vis struct $name {
            $( $(#[doc = $fdoc])+ pub $field: $crate::record::record!(@type $ty [$($how)+]) ),+
        }

        impl $name {
            /// The fields as the job file has them.
            pub fn table() -> $crate::record::TableDoc {
                $crate::record::TableDoc {
                    doc: concat!($($doc, "\n"),+),
                    name: stringify!($name),
                    fields: vec![$( $crate::record::FieldDoc {
                        key: stringify!($field),
                        doc: concat!($($fdoc, "\n"),+),
                        shape: $crate::record::record!(@shape $ty [$($how)+]),
                        absent: $crate::record::record!(@absent [$($how)+]),
                    } ),+],
                }
            }
        }

        impl $crate::record::Field for $name {
            fn shape() -> $crate::record::Shape { $crate::record::Shape::Table(Self::table) }
            fn read(node: &$crate::record::Node<'_>, cx: &mut $crate::record::Context) -> Option<Self> {
                let table = $crate::record::fields::table(node, cx)?;
                Self::read_table(table, node.span(), cx)
            }
        }

        impl $name {
            /// Reads the record from a table of the job file.
            pub(crate) fn read_table(
                table: &toml::de::DeTable<'_>,
                span: std::ops::Range<usize>,
                cx: &mut $crate::record::Context,
            ) -> Option<Self> {
                cx.mark(span.clone());
                let docs = Self::table().fields;
                $crate::record::fields::refuse_unknown(table, &docs, cx);
                let mut docs = docs.iter();
                $( let $field = {
                    let doc = docs.next()?;
                    $crate::record::record!(@read table, span, cx, doc, stringify!($field), $ty, [$($how)+])
                }; )+
                Some(Self { $($field: $field?),+ })
            }
        }
    };

    (@type $ty:ty [optional]) => { Option<$ty> };
    (@type $ty:ty [list]) => { Vec<$ty> };
    (@type $ty:ty [$($how:tt)+]) => { $ty };

    (@shape $ty:ty [list]) => { <Vec<$ty> as $crate::record::Field>::shape() };
    (@shape $ty:ty [$($how:tt)+]) => { <$ty as $crate::record::Field>::shape() };

    (@absent [required]) => { $crate::record::Absent::Refused };
    (@absent [optional]) => { $crate::record::Absent::Empty };
    (@absent [list]) => { $crate::record::Absent::Empty };
    (@absent [default $text:literal]) => { $crate::record::Absent::Default($text) };
    (@absent [assume $text:literal because $basis:literal]) => { $crate::record::Absent::Assumed($text, $basis) };

    (@read $table:ident, $span:ident, $cx:ident, $doc:ident, $key:expr, $ty:ty, [required]) => {
        match $crate::record::fields::present::<$ty>($table, $key, $cx) {
            Some(read) => read,
            None => { $crate::record::fields::missing::<$ty>($doc, $span.clone(), $cx); None }
        }
    };
    (@read $table:ident, $span:ident, $cx:ident, $doc:ident, $key:expr, $ty:ty, [optional]) => {{
        let _ = $doc;
        match $crate::record::fields::present::<$ty>($table, $key, $cx) {
            Some(None) => None,
            Some(Some(value)) => Some(Some(value)),
            None => Some(None),
        }
    }};
    (@read $table:ident, $span:ident, $cx:ident, $doc:ident, $key:expr, $ty:ty, [list]) => {{
        let _ = $doc;
        match $crate::record::fields::present::<Vec<$ty>>($table, $key, $cx) {
            Some(read) => read,
            None => Some(Vec::new()),
        }
    }};
    (@read $table:ident, $span:ident, $cx:ident, $doc:ident, $key:expr, $ty:ty, [default $text:literal]) => {{
        let _ = $doc;
        match $crate::record::fields::present::<$ty>($table, $key, $cx) {
            Some(read) => read,
            None => <$ty as $crate::record::Field>::from_default($text),
        }
    }};
    (@read $table:ident, $span:ident, $cx:ident, $doc:ident, $key:expr, $ty:ty,
     [assume $text:literal because $basis:literal]) => {{
        let _ = $doc;
        match $crate::record::fields::present::<$ty>($table, $key, $cx) {
            Some(read) => read,
            None => {
                $cx.assume($key, <$ty as $crate::record::Field>::shape().written($text), $basis);
                <$ty as $crate::record::Field>::from_default($text)
            }
        }
    }};
}

/// Declares a field that holds one word of a list.
macro_rules! choice {
    ($(#[doc = $doc:literal])+ $vis:vis enum $name:ident {
        $( #[doc = $vdoc:literal] $variant:ident = $word:literal ),+ $(,)?
    }) => {
        $(#[doc = $doc])+
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, schemars::JsonSchema)]
        $vis enum $name {
            $( #[doc = $vdoc] #[serde(rename = $word)] $variant ),+
        }
        impl $name {
            /// All words with their meaning.
            pub const WORDS: &'static [(&'static str, &'static str)] = &[$(($word, $vdoc)),+];
            /// The word as the job file has it.
            pub fn word(self) -> &'static str {
                match self { $(Self::$variant => $word),+ }
            }
        }
        impl $crate::record::Field for $name {
            fn shape() -> $crate::record::Shape { $crate::record::Shape::Choice(Self::WORDS) }
            fn read(node: &$crate::record::Node<'_>, cx: &mut $crate::record::Context) -> Option<Self> {
                $crate::record::fields::read_choice(node, cx, Self::WORDS, &[$(Self::$variant),+])
            }
            fn from_default(text: &str) -> Option<Self> {
                match text { $($word => Some(Self::$variant),)+ _ => None }
            }
        }
    };
}

pub(crate) use {choice, record};
