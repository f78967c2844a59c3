#include "core/larder/stock_change.h"

namespace stillroom::larder {

Stock withState(Stock was, OnShelf state, const std::string& today) {
    was.state = state;
    const bool counted = was.amount && *was.amount > 0;
    const bool none = state == OnShelf::Out || state == OnShelf::NotSaid;
    if (none || !counted) was.amount.reset();
    was.countedOn = state == OnShelf::NotSaid ? std::string() : today;
    return was;
}

Stock withAmount(Stock was, std::optional<double> amount, PackUnit unit, const std::string& today) {
    was.amount = amount;
    if (!amount) return was;
    was.unit = unit;
    was.countedOn = today;
    if (!(*amount > 0))
        was.state = OnShelf::Out;
    else if (was.state == OnShelf::Out || was.state == OnShelf::NotSaid)
        was.state = OnShelf::Have;
    return was;
}

} // namespace stillroom::larder
