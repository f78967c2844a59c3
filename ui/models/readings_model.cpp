#include "ui/models/readings_model.h"

#include "ui/text/border.h"
#include "ui/text/difference_text.h"
#include "ui/text/dilution_words.h"
#include "ui/text/revision_label.h"
#include "ui/text/words.h"

namespace stillroom::ui {

namespace {

struct Listed {
    spec::Quantity quantity;
    bool newGroup;
};

using Q = spec::Quantity;
constexpr std::array<Listed, 11> kListed{{{Q::Volume, false},
                                          {Q::Strength, false},
                                          {Q::Sugar, false},
                                          {Q::Acid, false},
                                          {Q::SugarAcidRatio, false},
                                          {Q::Dilution, true},
                                          {Q::Temperature, false},
                                          {Q::Ethanol, false},
                                          {Q::StandardDrinks, false},
                                          {Q::Cost, true},
                                          {Q::EnergyKcal, false}}};

} // namespace

ReadingsModel::ReadingsModel(QObject* parent) : QAbstractTableModel(parent) {
    m_forget.setSingleShot(true);
    m_forget.setInterval(kChangedMs);
    connect(&m_forget, &QTimer::timeout, this, &ReadingsModel::forgetChanges);
}

void ReadingsModel::setSession(DraftSession* session) {
    beginResetModel();
    if (m_session) m_session->disconnect(this);
    m_session = session;
    m_revision.reset();
    m_rows.clear();
    m_forget.stop();
    if (m_session) {
        m_rows =
            rowsOf(m_session->now().readings, m_session->base() ? &m_session->base()->readings : nullptr);
        connect(m_session, &DraftSession::changed, this, [this] { refresh(true); });
        connect(m_session, &DraftSession::baseChanged, this, [this] {
            refresh(false);
            Q_EMIT headerDataChanged(Qt::Horizontal, Since, Since);
        });
    }
    endResetModel();
}

void ReadingsModel::showRevision(const history::Revision* revision) {
    m_revision = revision ? std::optional<history::Revision>(*revision) : std::nullopt;
    if (m_session) refresh(false);
    Q_EMIT headerDataChanged(Qt::Horizontal, Since, Since);
}

int ReadingsModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

int ReadingsModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : ColumnCount;
}

QVariant ReadingsModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) return {};
    const Row& row = m_rows[static_cast<std::size_t>(index.row())];
    if (role == Qt::TextAlignmentRole) return int(index.column() <= Unit ? Qt::AlignLeft : Qt::AlignRight);
    if (role == Qt::ToolTipRole || role == Qt::AccessibleDescriptionRole)
        return row.quantity == spec::Quantity::Dilution ? waterSource() : QString();
    if (role != Qt::DisplayRole && role != Qt::AccessibleTextRole) return {};
    switch (index.column()) {
    case Name:
        return quantityName(row.quantity);
    case Unit:
        return row.unit;
    case Since:
        return row.since;
    default:
        return row.stages[static_cast<std::size_t>(stageOf(index.column()))].plain();
    }
}

// Of the draft: a revision's own bench is not known any more, and its working says what it was read with.
QString ReadingsModel::waterSource() const {
    if (!m_session || m_revision) return {};
    const auto& spec = m_session->spec();
    const QString how = spec.method.dilution ? fromCore(spec.method.dilution->how) : QString();
    const auto source = spec::dilutionSource(spec, m_session->bindings());
    return tr("Water: %1").arg(dilutionSourceWords(source, how));
}

QVariant ReadingsModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
    if (section >= Measured && section <= Served) return stageName(stageOf(section));
    if (section == Since && m_session && m_session->base() && !m_revision)
        return tr("since %1").arg(revisionLabel(m_session->drink().form, m_session->base()->number));
    return QString();
}

std::vector<ReadingsModel::Row> ReadingsModel::rowsOf(const spec::Readings& readings,
                                                      const spec::Readings* base) const {
    const auto& rules = m_session->book().settings().rules;
    const QString currency = currencySign(rules.currency);
    std::vector<Row> rows;
    rows.reserve(kListed.size());
    for (const auto& listed : kListed) {
        Row row;
        row.quantity = listed.quantity;
        row.newGroup = listed.newGroup;
        row.unit = quantityUnitShown(listed.quantity, currency, readings.standardDrinkGrams);
        for (std::size_t stage = 0; stage < spec::kStageCount; ++stage) {
            const auto& reading = readings.stages[stage][listed.quantity];
            row.stages[stage] = readingText(reading, listed.quantity);
            row.estimate[stage] = reading.estimate;
        }
        if (base != nullptr) {
            const auto difference =
                differenceText((*base)[spec::Stage::Served][listed.quantity],
                               readings[spec::Stage::Served][listed.quantity], listed.quantity);
            row.since = difference.text;
            row.direction = difference.direction;
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

void ReadingsModel::refresh(bool markChanges) {
    auto rows = m_revision ? rowsOf(m_revision->readings, nullptr)
                           : rowsOf(m_session->now().readings,
                                    m_session->base() ? &m_session->base()->readings : nullptr);
    bool marked = false;
    constexpr auto served = static_cast<std::size_t>(spec::Stage::Served);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const int from = firstDifference(m_rows[i].stages[served].number, rows[i].stages[served].number);
        if (markChanges && from >= 0) {
            rows[i].changedFrom = from;
            marked = true;
        } else if (markChanges) {
            rows[i].changedFrom = m_rows[i].changedFrom;
        }
    }
    const auto before = std::exchange(m_rows, std::move(rows));
    for (std::size_t i = 0; i < m_rows.size(); ++i)
        if (m_rows[i] != before[i])
            Q_EMIT dataChanged(index(static_cast<int>(i), Unit), index(static_cast<int>(i), Since));
    if (marked) m_forget.start();
}

void ReadingsModel::forgetChanges() {
    for (std::size_t i = 0; i < m_rows.size(); ++i) {
        if (m_rows[i].changedFrom < 0) continue;
        m_rows[i].changedFrom = -1;
        const auto cell = index(static_cast<int>(i), Served);
        Q_EMIT dataChanged(cell, cell);
    }
}

} // namespace stillroom::ui
