//! What is done along a line of a cut file: its layer, the same in every format.

/// What a machine or a person does along a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Action {
    /// Cut right through.
    Cut,
    /// Punch by hand, at the cross.
    Punch,
    /// Engrave or draw.
    Mark,
    /// Nothing: for measuring and reading only.
    Reference,
}

/// Name and colour of a layer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Layer {
    /// Name, at most 31 of `A-Z 0-9 _ -` (the limit of the oldest DXF readers).
    pub name: String,
    /// Colour number in DXF (1 to 255).
    pub dxf_colour: u8,
    /// Colour in SVG: red, green, blue.
    pub rgb: [u8; 3],
}

/// The layers of all cut files; shops differ in what they expect, so every name and colour may be set.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Layers {
    /// For [`Action::Cut`].
    pub cut: Layer,
    /// For [`Action::Punch`].
    pub punch: Layer,
    /// For [`Action::Mark`].
    pub mark: Layer,
    /// For [`Action::Reference`].
    pub reference: Layer,
}

impl Action {
    /// All, in the order in which they are written.
    pub const ALL: [Action; 4] = [Action::Cut, Action::Punch, Action::Mark, Action::Reference];
}

impl Layer {
    /// A layer with a name, a DXF colour number and an SVG colour.
    pub fn new(name: &str, dxf_colour: u8, rgb: [u8; 3]) -> Self {
        Self { name: name.to_owned(), dxf_colour, rgb }
    }

    /// The SVG colour as `#rrggbb`.
    pub fn hex(&self) -> String {
        let [r, g, b] = self.rgb;
        format!("#{r:02x}{g:02x}{b:02x}")
    }
}

impl Layers {
    /// The layer of an action.
    pub fn of(&self, action: Action) -> &Layer {
        match action {
            Action::Cut => &self.cut,
            Action::Punch => &self.punch,
            Action::Mark => &self.mark,
            Action::Reference => &self.reference,
        }
    }
}

impl Default for Layers {
    /// No standard exists for these; names say what is done, colours are a second hint.
    fn default() -> Self {
        Self {
            cut: Layer::new("CUT", 5, [0, 0, 255]),
            punch: Layer::new("PUNCH", 6, [255, 0, 255]),
            mark: Layer::new("MARK", 3, [0, 160, 0]),
            reference: Layer::new("REFERENCE", 8, [128, 128, 128]),
        }
    }
}
