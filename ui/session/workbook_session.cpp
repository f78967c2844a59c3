#include "ui/session/workbook_session.h"

#include "core/base/text.h"
#include "core/preparation/recompute.h"
#include "core/store/bench_rules.h"
#include "ui/session/larder_edit.h"
#include "ui/text/border.h"

#include <QFileInfo>

#include <algorithm>

namespace stillroom::ui {

WorkbookSession::WorkbookSession(std::unique_ptr<store::Workbook> book, const base::Clock& clock,
                                 QObject* parent)
    : QObject(parent),
      m_book(std::move(book)),
      m_clock(clock),
      m_settings(m_book->settings()),
      m_larder(m_book->larder()),
      m_houseRules(store::benchRules(*m_book, m_larder)),
      m_shelf(m_book->summaries()) {}

WorkbookSession::~WorkbookSession() = default;

const store::DrinkSummary* WorkbookSession::summary(base::DrinkId drink) const {
    const auto found =
        std::find_if(m_shelf.begin(), m_shelf.end(), [&](const auto& row) { return row.id == drink; });
    return found == m_shelf.end() ? nullptr : &*found;
}

QString WorkbookSession::title() const {
    if (!m_settings.name.empty()) return fromCore(m_settings.name);
    return QFileInfo(fromCore(m_book->path())).completeBaseName();
}

exchange::ReadOptions WorkbookSession::readOptions() const {
    exchange::ReadOptions options;
    options.region = m_settings.region;
    options.imperial = m_settings.region == "UK";
    options.larder = &m_larder;
    return options;
}

history::Draft WorkbookSession::addDrink(const history::Drink& drink, const spec::Spec& spec) {
    auto draft = m_book->addDrink(drink, spec);
    reloadShelf();
    return draft;
}

void WorkbookSession::saveDrink(const history::Drink& drink) {
    m_book->saveDrink(drink);
    const auto found =
        std::find_if(m_shelf.begin(), m_shelf.end(), [&](const auto& row) { return row.id == drink.id; });
    if (found != m_shelf.end() && found->menuName == drink.menuName && found->binned == drink.binned) {
        if (found->name == drink.name) return;
        found->name = drink.name;
        Q_EMIT shelfRowChanged(drink.id);
        return;
    }
    reloadShelf();
}

void WorkbookSession::saveSettings(const store::BookSettings& settings) {
    m_book->saveSettings(settings);
    m_settings = settings;
    m_houseRules = store::benchRules(*m_book, m_larder);
    Q_EMIT settingsChanged();
}

void WorkbookSession::saveIngredient(const larder::Ingredient& ingredient) {
    m_book->saveIngredient(ingredient);
    reloadLarder();
}

void WorkbookSession::saveIngredients(const std::vector<larder::Ingredient>& all,
                                      const std::vector<base::IngredientId>& binned,
                                      const std::vector<larder::Lot>& lots,
                                      const std::vector<base::LotId>& lotsGone) {
    m_book->changeLarder({all, binned, lots, lotsGone});
    reloadLarder();
}

LarderEdit& WorkbookSession::larderEdit() {
    if (!m_larderEdit) m_larderEdit = std::make_unique<LarderEdit>(*this);
    return *m_larderEdit;
}

void WorkbookSession::saveLot(const larder::Lot& lot, bool inUse) {
    // A preparation that nobody named in the larder yet stands in it by its drink alone: a lot wants it
    // named.
    const auto* known = m_larder.find(lot.ingredient);
    if (known == nullptr)
        throw store::StoreError(store::StoreErrorKind::NotFound, 0, m_book->path(), "no such ingredient");
    larder::Ingredient ingredient = *known;
    std::erase_if(ingredient.packs,
                  [&](const larder::Pack& pack) { return preparation::isCostOfMaking(pack, ingredient.id); });
    if (inUse) ingredient.lotInUse = lot.id;
    m_book->changeLarder({{ingredient}, {}, {lot}, {}});
    reloadLarder();
}

void WorkbookSession::setNameMeaning(const std::string& written,
                                     std::optional<base::IngredientId> ingredient) {
    if (nameMeaning(written) == ingredient) return;
    if (ingredient) {
        m_book->rememberName(written, *ingredient);
        m_larder.remember(written, *ingredient);
    } else {
        m_book->forgetName(written);
        m_larder = m_book->larder();
    }
}

std::optional<base::IngredientId> WorkbookSession::nameMeaning(const std::string& written) const {
    const auto& remembered = m_larder.remembered();
    const auto found = remembered.find(base::fold(written));
    return found == remembered.end() ? std::nullopt : std::optional(found->second);
}

void WorkbookSession::reloadShelf() {
    m_shelf = m_book->summaries();
    Q_EMIT shelfReloaded();
}

void WorkbookSession::reloadLarder() {
    m_larder = m_book->larder();
    m_houseRules = store::benchRules(*m_book, m_larder);
    Q_EMIT larderChanged();
}

void WorkbookSession::reloadBench() {
    m_houseRules = store::benchRules(*m_book, m_larder);
    Q_EMIT benchChanged();
}

void WorkbookSession::noteDraft(base::DrinkId drink, bool differs, const spec::Reading& servedStrength) {
    const auto found =
        std::find_if(m_shelf.begin(), m_shelf.end(), [&](const auto& row) { return row.id == drink; });
    if (found == m_shelf.end()) return;
    const bool strengthIsDrafts = found->revisions == 0;
    if (found->draftDiffers == differs && (!strengthIsDrafts || found->servedStrength == servedStrength))
        return;
    found->draftDiffers = differs;
    if (strengthIsDrafts) found->servedStrength = servedStrength;
    Q_EMIT shelfRowChanged(drink);
}

} // namespace stillroom::ui
