#include "ui/models/more_model.h"

#include "ui/text/border.h"
#include "ui/text/more_words.h"
#include "ui/text/words.h"

namespace stillroom::ui {

namespace {

using Row = MoreModel::Row;
using Kind = MoreModel::Kind;
using spec::More;
using spec::Quantity;

// As in the grid; an estimate says so before the number.
ReadingText shown(const spec::Reading& reading, int decimals) {
    ReadingText text = readingText(reading, decimals);
    text.gap = reading.gapLines != 0 || reading.bound == spec::Bound::Unknown;
    if (reading.bound == spec::Bound::Between && reading.estimate) text.sign = kNearly;
    return text;
}

ReadingText word(const QString& text) {
    ReadingText shown;
    shown.number = text;
    return shown;
}

ReadingText atMost(const QString& text, bool bound) {
    ReadingText shown = word(text);
    if (bound) shown.sign = kAtMost;
    return shown;
}

class Rows {
  public:
    Rows(const spec::FurtherReadings& further, const spec::Readings& readings)
        : m_further(further),
          m_readings(readings) {}

    void heading(const QString& text) { add(Kind::Heading, text); }
    void note(const QString& text) {
        if (!text.isEmpty()) add(Kind::Note, text);
    }
    void reading(More more, const QString& unit) {
        Row& row = add(Kind::Reading, moreName(more));
        row.unit = unit;
        row.more = more;
        for (std::size_t s = 0; s < spec::kStageCount; ++s)
            row.stages[s] = shown(m_further.more.stages[s][more], spec::moreDecimals(more));
        note(moreNoteWords(more));
    }
    void reading(More more) { reading(more, fromCore(spec::moreUnit(more))); }
    void reading(Quantity quantity, const QString& name, const QString& unit) {
        Row& row = add(Kind::Reading, name);
        row.unit = unit;
        row.quantity = quantity;
        for (std::size_t s = 0; s < spec::kStageCount; ++s)
            row.stages[s] = readingText(m_readings.stages[s][quantity], quantity);
    }
    void freezer() {
        const QString at = MoreModel::tr("At %1").arg(number(m_further.freezer.celsius(), 0) + kNarrowSpace +
                                                      QStringLiteral("°C"));
        Row& state = add(Kind::Reading, at);
        state.more = More::FreezingOnset;
        for (std::size_t s = 0; s < spec::kStageCount; ++s)
            state.stages[s] = word(m_further.cold[s].state ? coldStateName(m_further.cold[s].state->state)
                                                           : QStringLiteral("?"));
        Row& ice = add(Kind::Reading, MoreModel::tr("… of it ice"));
        ice.unit = MoreModel::tr("% by mass");
        ice.more = More::FreezingOnset;
        for (std::size_t s = 0; s < spec::kStageCount; ++s)
            ice.stages[s] =
                atMost(m_further.cold[s].state ? number(100 * m_further.cold[s].state->iceShare, 0)
                                               : QStringLiteral("?"),
                       m_further.cold[s].atMost && m_further.cold[s].state);
        note(MoreModel::tr("slush and solid: words for a share of ice, no source"));
        Row& needed = add(Kind::Reading, MoreModel::tr("Stays liquid from"));
        needed.unit = QStringLiteral("% vol");
        needed.more = More::FreezingOnset;
        for (std::size_t s = 0; s < spec::kStageCount; ++s)
            needed.stages[s] =
                atMost(m_further.cold[s].staysLiquid ? number(m_further.cold[s].staysLiquid->percentVol(), 1)
                                                     : QString(kEmDash),
                       m_further.cold[s].atMost && m_further.cold[s].staysLiquid);
        note(MoreModel::tr("the strength needed there, by taking water out or in"));
    }
    void countries() {
        for (const auto& country : m_further.countries) {
            Row& row = add(Kind::Reading, fromCore(country.name));
            row.unit = MoreModel::tr("of %1 g").arg(trimmedNumber(country.grams, 2));
            row.quantity = Quantity::Ethanol;
            row.stages[static_cast<std::size_t>(spec::Stage::Served)] = shown(country.count, 1);
        }
    }

    std::vector<Row> rows;

  private:
    Row& add(Kind kind, const QString& name) {
        Row& row = rows.emplace_back();
        row.kind = kind;
        row.name = name;
        return row;
    }

    const spec::FurtherReadings& m_further;
    const spec::Readings& m_readings;
};

} // namespace

void MoreModel::setValues(const spec::FurtherReadings& further, const spec::Readings& readings) {
    Rows made(further, readings);
    made.heading(tr("Cold"));
    made.reading(More::FreezingOnset);
    made.freezer();
    made.heading(tr("Taste"));
    made.reading(More::Ph);
    for (const More more : {More::Sweetness, More::SweetnessLow, More::SweetnessHigh})
        made.reading(more);
    made.heading(tr("Fizz"));
    made.reading(More::Co2GPerL);
    made.reading(More::Co2Volumes);
    made.heading(tr("Body, a serve"));
    made.reading(Quantity::EnergyKj, tr("Energy"), QStringLiteral("kJ"));
    made.reading(Quantity::EnergyKcal, tr("Energy"), QStringLiteral("kcal"));
    made.reading(More::Caffeine);
    made.heading(tr("On other scales"));
    for (const More more : {More::ProofUs, More::ProofUk, More::RelativeDensity, More::Baume,
                            More::Contraction, More::RefractiveIndex, More::WaterActivity})
        made.reading(more);
    made.heading(tr("Standard drinks a serve, by country"));
    made.countries();

    const auto sameShape = [&] {
        if (made.rows.size() != m_rows.size()) return false;
        for (std::size_t i = 0; i < m_rows.size(); ++i)
            if (made.rows[i].kind != m_rows[i].kind) return false;
        return true;
    };
    if (!sameShape()) {
        beginResetModel();
        m_rows = std::move(made.rows);
        endResetModel();
        return;
    }
    for (std::size_t i = 0; i < m_rows.size(); ++i) {
        if (made.rows[i] == m_rows[i]) continue;
        m_rows[i] = std::move(made.rows[i]);
        Q_EMIT dataChanged(index(static_cast<int>(i), Name), index(static_cast<int>(i), Served));
    }
}

void MoreModel::clear() {
    beginResetModel();
    m_rows.clear();
    endResetModel();
}

int MoreModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

int MoreModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : ColumnCount;
}

QVariant MoreModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) return {};
    const Row& row = m_rows[static_cast<std::size_t>(index.row())];
    if (role == Qt::AccessibleDescriptionRole) {
        const auto next = static_cast<std::size_t>(index.row()) + 1;
        return next < m_rows.size() && m_rows[next].kind == Kind::Note ? m_rows[next].name : QString();
    }
    if (role != Qt::DisplayRole && role != Qt::AccessibleTextRole) return {};
    if (index.column() == Name) return row.name;
    if (index.column() == Unit) return row.unit;
    return row.stages[static_cast<std::size_t>(index.column() - Measured)].plain();
}

QVariant MoreModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole || section < Measured) return {};
    return stageName(static_cast<spec::Stage>(section - Measured));
}

// Headings and notes are read on the way, not stood on.
Qt::ItemFlags MoreModel::flags(const QModelIndex& index) const {
    if (!index.isValid() || row(index.row()).kind != Kind::Reading) return Qt::NoItemFlags;
    return Qt::ItemIsEnabled | Qt::ItemIsSelectable;
}

} // namespace stillroom::ui
