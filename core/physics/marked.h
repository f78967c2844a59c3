#pragma once

namespace stillroom::physics {

// A computed value and whether it left the range its source was made for. An estimate is shown as one;
// it is never silently as good as the rest.
template <class T>
struct Marked {
    T value{};
    bool estimate = false;
    friend bool operator==(const Marked&, const Marked&) = default;
};

} // namespace stillroom::physics
