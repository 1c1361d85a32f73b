"""The paper that sheets are drawn on: its sizes, frames, margins and marks, and the scales of what is drawn on it."""
