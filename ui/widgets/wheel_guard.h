#pragma once

namespace stillroom::ui {

// The wheel scrolls the page and never changes a value: no closed list and no number box of the program turns
// under it, in hand or not, nor takes the focus for it. For the whole application, from then on; asking again
// does nothing.
void guardWheel();

} // namespace stillroom::ui
