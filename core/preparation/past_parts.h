#pragma once

#include "core/preparation/part_dates.h"
#include "core/spec/caution.h"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace stillroom::preparation {

// The last days of everything a shelf pours from lots, worked out once: to be asked at every keystroke.
class ShelfDates {
  public:
    ShelfDates() = default; // knows of no lot
    ShelfDates(const larder::Larder& larder, const Specs& preparations, const spec::HouseRules& rules);

    // One for each line that is poured from a lot past its last day on that civil day, or from a preparation
    // of which nothing stands and that would be made of such a lot, to any depth. Of its last day a lot is
    // not past.
    std::vector<spec::Caution> past(const spec::Spec& spec, const spec::Bindings& bindings,
                                    std::string_view today) const;

  private:
    struct Ending {
        std::string name;    // of what stands on the shelf
        std::string through; // of the preparation that is poured, where it is another
        PartDate date;
    };
    std::map<base::IngredientId, std::vector<Ending>> m_endings; // by what a line pours
};

// Beside the others, after those of danger.
std::vector<spec::Caution> withPast(std::vector<spec::Caution> cautions, std::vector<spec::Caution> past);

} // namespace stillroom::preparation
