/** What has to be asked and said before hands go on, in plain words. */
export const Cautions = () => (
  <section className="card cautions" aria-labelledby="cautions-title">
    <h2 id="cautions-title">Before hands go on</h2>
    <ul>
      <li>
        Ask about pain, injury, surgery, pregnancy, and heart or blood-pressure history. A licensed
        professional decides about those. Sayso is not medical advice.
      </li>
      <li>Ask before you touch, and say what your hands will do.</li>
      <li>Under 18: consent and supervision as your local rules say.</li>
      <li>After a shoulder dislocation or shoulder surgery: no hanging.</li>
      <li>
        “Stop” works at any moment, spoken, tapped or with Escape. Pain pauses the work at once. A
        warning sign such as chest pain or dizziness ends the session.
      </li>
    </ul>
  </section>
);
