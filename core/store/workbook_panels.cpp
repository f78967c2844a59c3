// Photos and blind panels.
#include "core/store/sqlite_workbook.h"
#include "core/store/stored.h"

#include <algorithm>

namespace stillroom::store {

using tasting::Panel;
using tasting::PanelError;

tl::expected<AttachedPhoto, tasting::PhotoError>
SqliteWorkbook::attachPhoto(const PhotoOf& of, const std::string& bytes, const std::string& caption) {
    const auto info = tasting::inspectPhoto(bytes);
    if (!info) return tl::unexpected(info.error());
    return change("attaching a photo", Durability::Kept, [&] {
        if (const auto* revision = std::get_if<base::RevisionId>(&of)) {
            if (!m_revisions.find(*revision)) throw notFound(m_book.connection, "revision", revision->text());
        } else if (const auto& tasting = std::get<base::TastingId>(of); !m_tastings.find(tasting)) {
            throw notFound(m_book.connection, "tasting", tasting.text());
        }
        m_photos.store(*info, bytes);
        return m_photos.attach(of, *info, caption);
    });
}

void SqliteWorkbook::hidePhoto(base::PhotoLinkId photo, bool hidden) {
    change("taking a photo off", Durability::Kept, [&] { m_photos.hide(photo, hidden); });
}

std::vector<AttachedPhoto> SqliteWorkbook::photosOf(const PhotoOf& of) const {
    return reading("listing photos", [&] { return m_photos.of(of, false); });
}

std::vector<AttachedPhoto> SqliteWorkbook::takenOff(const PhotoOf& of) const {
    return reading("listing photos taken off", [&] { return m_photos.of(of, true); });
}

std::vector<AttachedPhoto> photosTakenOff(const Workbook& book, const PhotoOf& of) {
    const auto* side = dynamic_cast<const PhotosTakenOff*>(&book);
    return side ? side->takenOff(of) : std::vector<AttachedPhoto>{};
}

std::optional<std::string> SqliteWorkbook::photoBytes(const std::string& hash) const {
    return reading("reading a photo", [&] { return m_photos.bytes(hash); });
}

PhotoTally SqliteWorkbook::photoTally() const {
    return reading("counting photos", [&] { return m_photos.tally(); });
}

tl::expected<base::PanelId, PanelError> SqliteWorkbook::addPanel(const std::string& name,
                                                                 const Panel& panel) {
    if (const auto problem = tasting::problemOf(panel)) return tl::unexpected(*problem);
    if (panel.state != tasting::PanelState::Designed) return tl::unexpected(PanelError::WrongState);
    return change("adding a panel", Durability::Kept, [&] {
        const auto known = m_tastings.people();
        for (const base::PersonId& taster : panel.design.tasters)
            if (std::none_of(known.begin(), known.end(),
                             [&](const tasting::Person& person) { return person.id == taster; }))
                throw notFound(m_book.connection, "person", taster.text());
        return m_panels.add(name, panel);
    });
}

// What `step` makes of the panel as it stands; where it is allowed, `write` adds it to the file.
template <class Step, class Write>
tl::expected<void, PanelError> SqliteWorkbook::advance(base::PanelId id, std::string_view operation,
                                                       Step&& step, Write&& write) {
    using Result = tl::expected<void, PanelError>;
    return change(operation, Durability::Kept, [&]() -> Result {
        const auto panel = m_panels.find(id);
        if (!panel) throw notFound(m_book.connection, "panel", id.text());
        const tl::expected<Panel, PanelError> next = step(*panel);
        if (!next) return tl::unexpected(next.error());
        write();
        if (m_panels.find(id) != *next)
            throw StoreError(StoreErrorKind::Damaged, 0, m_path,
                             "the panel did not read back as it was written; nothing was changed");
        return {};
    });
}

tl::expected<void, PanelError> SqliteWorkbook::startPouring(base::PanelId panel) {
    return advance(
        panel, "opening a panel", [](const Panel& stored) { return tasting::startPouring(stored); },
        [&] { m_panels.addStep(panel, tasting::PanelState::Pouring); });
}

tl::expected<void, PanelError> SqliteWorkbook::addAnswer(base::PanelId panel, base::PersonId taster,
                                                         const tasting::Answer& answer) {
    return advance(
        panel, "taking an answer",
        [&](const Panel& stored) { return tasting::withAnswer(stored, taster, answer); },
        [&] { m_panels.addAnswer(panel, taster, answer); });
}

tl::expected<void, PanelError> SqliteWorkbook::closePanel(base::PanelId panel) {
    return advance(
        panel, "closing a panel", [](const Panel& stored) { return tasting::closePanel(stored); },
        [&] { m_panels.addStep(panel, tasting::PanelState::Closed); });
}

void SqliteWorkbook::renamePanel(base::PanelId panel, const std::string& name) {
    change("renaming a panel", Durability::Kept, [&] { m_panels.rename(panel, name); });
}

void SqliteWorkbook::binPanel(base::PanelId panel, bool binned) {
    change("binning a panel", Durability::Kept, [&] { m_panels.bin(panel, binned); });
}

std::vector<PanelSummary> SqliteWorkbook::panels() const {
    return reading("listing the panels", [&] {
        std::vector<PanelSummary> found;
        for (const base::PanelId& id : m_panels.all())
            found.push_back(m_panels.summary(id));
        return found;
    });
}

std::vector<PanelSummary> SqliteWorkbook::panelsOf(base::RevisionId product) const {
    return reading("listing the panels of a revision", [&] {
        std::vector<PanelSummary> found;
        for (const base::PanelId& id : m_panels.of(product))
            found.push_back(m_panels.summary(id));
        return found;
    });
}

std::optional<Panel> SqliteWorkbook::panel(base::PanelId panel) const {
    return reading("reading a panel", [&] { return m_panels.find(panel); });
}

} // namespace stillroom::store
